/** The order in which people see things: families, the drinks in them, sizes, levels, toppings. Pure. */
import type { Option } from "../../wire.gen";
import { type Edits, heldAt, isRemoved, type Path, type Scalar, setKey } from "./edits";
import { optionsOf } from "./offers";
import type { Desk } from "./sheets";
import { drinkOfFile, isDrink } from "./subjects";

/** Things in an order of their own: those of a table by their ids, or the drinks that a family lists. */
export interface Row {
  readonly name: string;
  readonly file: string;
  readonly path: Path;
  /** Whether what hands do may change with it, and not only what people see. */
  readonly counter: boolean;
  readonly things: readonly Option[];
  /** What the file says of the order: null where it lists nothing. */
  readonly written: Scalar;
}

/** The tables whose order people see, by the source that tells what is in them. */
const TABLES: readonly (readonly [string, string])[] = [
  ["families", "Headings on the register"],
  ["sizes", "Cup sizes"],
  ["sugars", "Sugar levels"],
  ["ices", "Ice levels"],
  ["toppings", "Toppings"],
  ["milks", "Milks"],
  ["stations", "Stations along the counter"],
];

/** Things in the order of these ids; those that it does not name follow as they stand. */
export function inOrder(things: readonly Option[], order: Scalar): Option[] {
  const ids = Array.isArray(order) ? order : [];
  const named = ids.flatMap((id) => things.find(({ value }) => value === id) ?? []);
  return [...named, ...things.filter((one) => !named.includes(one))];
}

function tableRow({ book, edits }: Desk, source: string, name: string): Row[] {
  const place = book.sources.find((one) => one.name === source);
  if (!place) return [];
  const { file, path } = place;
  const things = optionsOf(book, edits, source);
  const written = place.options.map(({ value }) => value);
  const now = heldAt(edits, file, path, written);
  return [{ name, file, path, counter: source === "stations", things: inOrder(things, now), written }];
}

/** The drinks on the menu, each with its family, in the order of their files. */
function drinksOf({ book, edits }: Desk): (Option & { readonly family: Scalar })[] {
  return book.files
    .filter(({ file }) => isDrink(file) && !isRemoved(edits, file, []))
    .map(({ file, title, tables }) => {
      const said = (key: string): Scalar =>
        heldAt(
          edits,
          file,
          [key],
          tables.find(({ path }) => path.length === 0)?.entries.find((one) => one.key === key)?.value ?? null,
        );
      const name = said("name");
      return {
        value: drinkOfFile(file),
        name: typeof name === "string" ? name : title,
        family: said("family"),
      };
    });
}

function familyRows(desk: Desk): Row[] {
  const { book, edits } = desk;
  const families = tableRow(desk, "families", "")[0]?.things ?? [];
  const drinks = drinksOf(desk);
  const tables = book.files.find(({ file }) => file === "shop.toml")?.tables ?? [];
  return families.map(({ value: id, name }) => {
    const path = ["families", id, "drinks"];
    const written =
      tables
        .find((table) => table.path.length === 2 && table.path[0] === "families" && table.path[1] === id)
        ?.entries.find((one) => one.key === "drinks")?.value ?? null;
    const own = drinks
      .filter((drink) => drink.family === id)
      .map(({ value, name: of }) => ({ value, name: of }));
    const things = inOrder(own, heldAt(edits, "shop.toml", path, written));
    return { name, file: "shop.toml", path, counter: false, things, written };
  });
}

/** Everything that has an order: the families, their drinks in that order, then the other tables. */
export function rowsOf(desk: Desk): Row[] {
  const [families, ...others] = TABLES.flatMap(([source, name]) => tableRow(desk, source, name));
  return [...(families ? [families] : []), ...familyRows(desk), ...others];
}

/** The edits with a thing of a row one place up or down; at its end nothing changes. */
export function moveThing(edits: Edits, row: Row, id: string, by: -1 | 1): Edits {
  const ids = row.things.map(({ value }) => value);
  const from = ids.indexOf(id);
  const to = from + by;
  if (from < 0 || to < 0 || to >= ids.length) return edits;
  ids.splice(from, 1);
  ids.splice(to, 0, id);
  return setKey(edits, row.file, row.path, ids, row.written);
}

/** How many of these rows are in another order than the files have. */
export function ordersEdited(edits: Edits, rows: readonly Row[]): number {
  return rows.filter((row) =>
    edits.changes.some(
      (one) => one.file === row.file && JSON.stringify(one.path) === JSON.stringify(row.path),
    ),
  ).length;
}
