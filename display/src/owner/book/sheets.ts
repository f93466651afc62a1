/** A file's tables as forms, with the edits made: what is written, what could be, what was put in or taken out. Pure. */
import type { BookFile, Entry, FieldShape, FormTable, TableShape, Workbook } from "../../wire.gen";
import { type Edits, heldAt, isRemoved, type Path, type Scalar, same, type Values, within } from "./edits";
import { optionsOf } from "./offers";
import { isIn, itemsOf, keyOfItem, type List } from "./places";

/** One key as a field: what it takes, and what is written. */
export interface FieldForm extends FieldShape {
  readonly path: Path;
  readonly value: Scalar;
  readonly comment: string;
  /** How it is called, where that is not its key in words. */
  readonly label?: string;
}

/** One table as a form. `fresh`: put in and not saved; `out`: taken out and not saved. */
export interface Sheet {
  readonly file: string;
  readonly path: Path;
  readonly title: string;
  readonly help: string;
  readonly shape: TableShape | undefined;
  readonly written: boolean;
  readonly fresh: boolean;
  readonly out: boolean;
  /** The list that it stands in, its name there and its place by now (from 0); what is out has none. */
  readonly list?: List & { readonly key: number | string; readonly place: number; readonly length: number };
  /** Tables inside a table of a list. */
  readonly inner: readonly Sheet[];
  readonly fields: readonly FieldForm[];
}

/** Everything that sheets are made from. */
export interface Desk {
  readonly book: Pick<Workbook, "shapes" | "sources" | "files">;
  readonly edits: Edits;
}

const UNKNOWN: Omit<FieldShape, "key" | "kind"> = { help: "", accepted: "", source: "", needed: false };

function kindOf(value: Scalar): FieldShape["kind"] {
  if (typeof value === "boolean") return "yes/no";
  return Array.isArray(value) ? "list" : "text";
}

/** What the steps of a drink put in: what may be said not to be left out. */
function putInBy(desk: Desk, file: string): Set<Scalar> {
  const steps = desk.book.files.find((one) => one.file === file)?.tables ?? [];
  const said = steps
    .filter((table) => table.path.length === 2)
    .map((table) => heldAt(desk.edits, file, [...table.path, "what"], writtenAt(table.entries, "what")));
  const changed = desk.edits.changes.filter((one) => one.file === file && one.path.at(-1) === "what");
  return new Set([...said, ...changed.map(({ value }) => value)]);
}

function writtenAt(entries: readonly Pick<Entry, "key" | "value">[], key: string): Scalar {
  return entries.find((entry) => entry.key === key)?.value ?? null;
}

/** The keys that a table could have beside those that its shape lists: sizes, levels, ingredients. */
function openFields(desk: Desk, file: string, shape: TableShape): FieldShape[] {
  const { more, keys } = shape;
  if (!more) return [];
  const used = keys === "pantry" ? putInBy(desk, file) : undefined;
  return optionsOf(desk.book, desk.edits, keys)
    .filter(({ value }) => used === undefined || used.has(value))
    .map(({ value }) => ({ ...more, key: value }));
}

function labelOf(desk: Desk, shape: TableShape | undefined, key: string): { label?: string } {
  if (shape?.keys === "percents") return { label: `${key} %` };
  const option = shape?.keys
    ? optionsOf(desk.book, desk.edits, shape.keys).find((one) => one.value === key)
    : undefined;
  return option && !shape?.fields.some((field) => field.key === key) ? { label: option.name } : {};
}

function fieldsOf(
  desk: Desk,
  file: string,
  path: Path,
  shape: TableShape | undefined,
  entries: readonly Pick<Entry, "key" | "value" | "comment">[],
): FieldForm[] {
  const open = shape ? openFields(desk, file, shape) : [];
  const put = desk.edits.changes
    .filter((one) => one.file === file && one.path.length === path.length + 1 && within(one.path, path))
    // The order of tables is edited at their path, and is no key.
    .filter((one) => !desk.book.sources.some((of) => of.file === file && same(of.path, one.path)))
    .map(({ path: to, value }) => ({ key: String(to[to.length - 1]), value }));
  const known = [...(shape?.fields ?? []), ...open];
  const keys = [
    ...entries.map(({ key }) => key),
    ...known.map(({ key }) => key),
    ...put.map(({ key }) => key),
  ];
  return [...new Set(keys)].map((key) => {
    const entry = entries.find((one) => one.key === key);
    const value = entry?.value ?? null;
    const takes = known.find((one) => one.key === key) ??
      shape?.more ?? { ...UNKNOWN, kind: kindOf(value ?? put.find((one) => one.key === key)?.value ?? null) };
    return {
      ...takes,
      ...labelOf(desk, shape, key),
      key,
      value,
      path: [...path, key],
      comment: entry?.comment ?? "",
    };
  });
}

const entriesOf = (values: Values): Entry[] =>
  Object.entries(values).map(([key, value]) => ({ key, value, comment: "", line: 0 }));

/** A table's name by now: that of the thing, what a step does, or what the file calls it. */
function titleOf(desk: Desk, file: string, path: Path, entries: readonly Entry[], written: string): string {
  const held = (key: string): string => {
    const value = heldAt(desk.edits, file, [...path, key], writtenAt(entries, key));
    return typeof value === "string" ? value : "";
  };
  if (path.length === 0) return held("name") || written;
  if (held("do") !== "") {
    const { edits, book } = desk;
    const what =
      optionsOf(book, edits, "pantry").find((one) => one.value === held("what"))?.name ?? held("what");
    const work = held("do").replaceAll("_", " ");
    // What is done with ice is called ice as well: once is enough.
    return [work.toLowerCase() === what.toLowerCase() ? "" : work, what]
      .filter((word) => word !== "")
      .join(" ");
  }
  return held("name") || written;
}

interface Made {
  readonly path: Path;
  readonly entries: readonly Entry[];
  readonly title: string;
  readonly shape: TableShape | undefined;
  readonly written: boolean;
  readonly fresh?: boolean;
  readonly out?: boolean;
}

function sheet(desk: Desk, file: string, made: Made): Sheet {
  const { path, entries, shape } = made;
  return {
    file,
    path,
    title: titleOf(desk, file, path, entries, made.title),
    help: shape?.help ?? "",
    shape,
    written: made.written,
    fresh: made.fresh ?? false,
    out: made.out ?? isRemoved(desk.edits, file, path),
    inner: [],
    fields: fieldsOf(desk, file, path, shape, entries),
  };
}

/** A table as it is written. */
function asWritten(desk: Desk, file: string, table: FormTable): Sheet {
  const shape = desk.book.shapes.find((one) => one.name === table.shape);
  return sheet(desk, file, { ...table, shape });
}

/** The kind of the tables that stand right inside a path of a file, if there can be many. */
export function kindAt(book: Desk["book"], file: string, path: Path): TableShape | undefined {
  return book.shapes.find(
    (one) =>
      one.one !== "" &&
      same(one.path, path) &&
      (one.file === file || (one.file === "drinks/" && file.startsWith("drinks/"))),
  );
}

/** The tables of a list in their present order, those taken out among them. */
function listed(desk: Desk, file: BookFile, path: Path): Sheet[] {
  const shape = kindAt(desk.book, file.file, path);
  const own = file.tables.filter((table) => within(table.path, path));
  const count = new Set(own.map((table) => table.path[path.length])).size;
  const items = itemsOf(desk.edits, file.file, path, count);
  const length = items.filter(isIn).length;
  let place = -1;
  return items.map((item) => {
    const key = keyOfItem(item);
    const out = !isIn(item);
    if (!out) place += 1;
    const tables = own.filter((table) => table.path[path.length] === key);
    const put = typeof item === "object" && "fresh" in item ? entriesOf(item.values) : [];
    const here: Path = [...path, key];
    const [main, ...inner] = tables;
    const made = main
      ? { ...asWritten(desk, file.file, main), out }
      : sheet(desk, file.file, {
          path: here,
          entries: put,
          title: "",
          shape,
          written: false,
          fresh: true,
          out,
        });
    return {
      ...made,
      list: { file: file.file, path, count, key, place: out ? -1 : place, length },
      inner: main ? inner.map((table) => asWritten(desk, file.file, table)) : optional(desk, file.file, here),
    };
  });
}

/** The tables that could stand in one that was put in. */
function optional(desk: Desk, file: string, path: Path): Sheet[] {
  return desk.book.shapes
    .filter(
      (one) =>
        one.optional && one.file === "drinks/" && one.path.length === path.length + 1 && one.path[1] === "*",
    )
    .map((shape) => {
      const key = shape.path.at(-1) ?? "";
      return sheet(desk, file, { path: [...path, key], entries: [], title: key, shape, written: false });
    });
}

/** All tables of a file in the order in which they stand, what was put in after its like. */
export function sheetsOf(desk: Desk, file: BookFile): Sheet[] {
  const lists = desk.book.shapes.filter(
    (one) => one.ordered && kindAt(desk.book, file.file, one.path) === one,
  );
  const inList = (table: FormTable): boolean => lists.some((one) => within(table.path, one.path));
  const plain = file.tables
    .filter((table) => !inList(table))
    .map((table) => asWritten(desk, file.file, table));
  const put = desk.edits.added
    .filter((one) => one.file === file.file)
    .map(({ path, values }) => {
      const shape = kindAt(desk.book, file.file, path.slice(0, -1));
      const title = String(path[path.length - 1]);
      return sheet(desk, file.file, {
        path,
        entries: entriesOf(values),
        title,
        shape,
        written: false,
        fresh: true,
      });
    });
  return [...plain, ...put, ...lists.flatMap((one) => listed(desk, file, one.path))];
}

/** Whether a sheet can be taken out: one of many, or one that may be left out and is written. */
export function removable({ shape, written, fresh }: Sheet): boolean {
  if (!shape) return false;
  return (shape.one !== "" && shape.keys === "") || fresh || (shape.optional && written);
}
