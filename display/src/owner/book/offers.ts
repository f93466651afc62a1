/** What a choice can be of, with what was put in or renamed and is not saved yet. Pure. */
import type { Option, OptionSource, Workbook } from "../../wire.gen";
import { type Edits, heldAt, isRemoved, type Path, type Scalar, same } from "./edits";

/** The parts of a book that choices are made from. */
export type Sources = Pick<Workbook, "sources">;

function nameOf(held: Scalar | undefined, otherwise: string): string {
  return typeof held === "string" && held !== "" ? held : otherwise;
}

/** What was put in among the tables, or among the keys, that a source is made of. */
function putIn(edits: Edits, source: OptionSource): Option[] {
  const among = ({ file, path }: { file: string; path: Path }): boolean =>
    file === source.file && same(path.slice(0, -1), source.path);
  const idOf = (path: Path): string => String(path[path.length - 1]);
  const tables = edits.added.filter(among).map(({ path, values }) => ({
    value: idOf(path),
    name: nameOf(heldAt(edits, source.file, [...path, "name"], values["name"] ?? null), idOf(path)),
  }));
  const keys = edits.changes.filter(among).filter(({ value }) => typeof value === "string" && value !== "");
  return [
    ...tables,
    ...keys.map(({ path, value }) => ({ value: idOf(path), name: nameOf(value, idOf(path)) })),
  ];
}

/** The options of a source, by its name, in the order of the book. */
export function optionsOf(book: Sources, edits: Edits, name: string): Option[] {
  const source = book.sources.find((one) => one.name === name);
  if (!source) return [];
  if (source.file === "") return source.options;
  const { file, path } = source;
  const gone = (value: string): boolean =>
    isRemoved(edits, file, [...path, value]) ||
    edits.changes.some((one) => one.file === file && one.value === null && same(one.path, [...path, value]));
  const written = source.options
    .filter(({ value }) => !gone(value))
    .map(({ value, name: before }) => {
      const key = heldAt(edits, file, [...path, value], before);
      return { value, name: nameOf(heldAt(edits, file, [...path, value, "name"], key), before) };
    });
  const more = putIn(edits, source).filter(({ value }) => !written.some((one) => one.value === value));
  return [...written, ...more];
}

/** Whether an id is taken among the tables at a path, by one that is written or one that is not saved yet. */
export function takenBy(
  book: Sources,
  edits: Edits,
  file: string,
  path: Path,
  id: string,
): string | undefined {
  const source = book.sources.find((one) => one.file === file && same(one.path, path));
  const all = source ? [...source.options, ...putIn(edits, source)] : [];
  return all.find((one) => one.value === id)?.name;
}
