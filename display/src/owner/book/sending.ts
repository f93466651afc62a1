/** The edits written out for the service, one after the other. Pure. */
import type { Edit } from "../../wire.gen";
import { at, type Edits, isRemoved, type Path } from "./edits";
import { isIn, pathNow } from "./places";

function one(file: string, path: Path, value: Edit["value"]): Edit {
  return { file, path: [...path], value };
}

/** The texts alone: what every other edit is about. */
export function textsToSend(texts: Edits["texts"]): Edit[] {
  return Object.entries(texts).map(([file, text]) => one(file, [], text));
}

/** Whether a path leads into a table that is taken out by its id. */
function inRemoved(edits: Edits, file: string, path: Path): boolean {
  return path.some((_, end) => isRemoved(edits, file, path.slice(0, end + 1)));
}

/** The ids of an order without those whose table, or key, is taken out. */
function stillThere(edits: Edits, file: string, path: Path, ids: readonly string[]): string[] {
  const gone = (id: string): boolean =>
    isRemoved(edits, file, [...path, id]) ||
    edits.changes.some((each) => each.value === null && at(file, [...path, id])(each));
  return ids.filter((id) => !gone(id));
}

/**
 * The edits as the service applies them: whole texts; tables that go and come; lists in their new order, with
 * what is put in; and then keys, each where its table stands by now, and lists of ids once all of them are there.
 * So a fault names the place seen.
 */
export function toSend(edits: Edits): Edit[] {
  const stays = ({ file }: { readonly file: string }): boolean => !isRemoved(edits, file, []);
  const lists = edits.changes.filter(({ value }) => Array.isArray(value));
  const others = edits.changes.filter(({ value }) => !Array.isArray(value));
  const changes = [...others, ...lists].filter(stays).flatMap(({ file, path, value }) => {
    const now = inRemoved(edits, file, path) ? undefined : pathNow(edits, file, path);
    return now ? [one(file, now, Array.isArray(value) ? stillThere(edits, file, path, value) : value)] : [];
  });
  const orders = edits.orders.filter(stays).map(({ file, path, items }) => {
    const order = items.filter(isIn).map((item) => (typeof item === "number" ? item : item.values));
    return one(file, path, order);
  });
  return [
    ...textsToSend(edits.texts).filter(stays),
    ...edits.removed
      .filter((each) => each.path.length === 0 || stays(each))
      .map(({ file, path }) => one(file, path, null)),
    ...edits.added.filter(stays).map(({ file, path, values }) => one(file, path, values)),
    ...orders,
    ...changes,
  ];
}
