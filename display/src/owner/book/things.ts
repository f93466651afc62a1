/** One more of a kind: its id, what it begins with, and why it cannot be put in. Pure. */
import type { Option, TableShape } from "../../wire.gen";
import { type Edits, heldAt, type Path, putTable, setKey, type Values } from "./edits";
import { isId, shortened } from "./ids";
import { takenBy } from "./offers";
import { type Desk, type Sheet, sheetsOf } from "./sheets";

/** What is one thing's own, and is never taken over from another. */
const OWN = ["name", "short", "brand", "one", "many"];

/** The words that a new thing has of its own: those of its kind, and of the one it is like, made of its name. */
function ownWords({ kind, like }: Wanted, name: string): Values {
  const has = (key: string): boolean => kind.fields.some((field) => field.key === key);
  const said = like?.fields.some(({ key, value }) => key === "one" && value !== null) ?? false;
  const word = name.toLowerCase();
  return {
    name,
    ...(has("short") ? { short: shortened(name) } : {}),
    ...(has("one") && said ? { one: word, many: word.endsWith("s") ? word : `${word}s` } : {}),
  };
}

/** The tables of a kind, as they are by now: what a new one can be like. */
export function likes(desk: Desk, kind: TableShape): Sheet[] {
  const file = desk.book.files.find((one) => one.file === kind.file);
  if (!file || kind.keys !== "") return [];
  return sheetsOf(desk, file).filter((sheet) => sheet.shape?.name === kind.name && !sheet.out);
}

/** Those with their names, to choose from. */
export function likeOptions(sheets: readonly Sheet[]): Option[] {
  return sheets.map(({ path, title }) => ({ value: path.join("."), name: title }));
}

/** What a table holds with the edits made, without what is its own. */
function valuesLike(edits: Edits, like: Sheet): Values {
  const held = like.fields
    .filter(({ key }) => !OWN.includes(key))
    .flatMap(({ key, path, value }) => {
      const now = heldAt(edits, like.file, path, value);
      return now === null ? [] : [[key, now] as const];
    });
  return Object.fromEntries(held);
}

/** A new thing of a kind: the words that were typed for it. */
export interface Wanted {
  readonly kind: TableShape;
  readonly name: string;
  readonly id: string;
  readonly like: Sheet | undefined;
}

/** Whether a kind's things are keys of one table (sugar levels by their per cent) rather than tables. */
export function isKeyed(kind: TableShape): boolean {
  return kind.keys !== "";
}

/** Where a new thing stands. */
export function placeOf({ kind, id }: Pick<Wanted, "kind" | "id">): Path {
  return [...kind.path, id];
}

/** Whether another thing of a kind has an id already. */
export function isTaken(desk: Desk, kind: TableShape, id: string): boolean {
  return takenBy(desk.book, desk.edits, kind.file, kind.path, id) !== undefined;
}

/** Why a thing cannot be put in yet; empty when it can. */
export function objection(desk: Desk, { kind, name, id }: Wanted): string {
  if (name.trim() === "") return "It needs a name.";
  if (isKeyed(kind)) {
    if (!/^(0|[1-9]\d{0,2})$/.test(id)) return "It needs its per cent: a whole number such as 60.";
  } else if (!isId(id)) {
    return "It needs an id: small letters, digits and _, at most 40, starting with a letter.";
  }
  const other = takenBy(desk.book, desk.edits, kind.file, kind.path, id);
  return other === undefined ? "" : `${id} is the id of “${other}” already. Choose another name or id.`;
}

/** The edits with the new thing among them. */
export function putThing(edits: Edits, wanted: Wanted): Edits {
  const { kind, like } = wanted;
  const name = wanted.name.trim();
  const path = placeOf(wanted);
  if (isKeyed(kind)) return setKey(edits, kind.file, path, name);
  return putTable(edits, {
    file: kind.file,
    path,
    values: { ...ownWords(wanted, name), ...(like ? valuesLike(edits, like) : {}) },
  });
}
