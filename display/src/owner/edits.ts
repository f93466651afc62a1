/** The owner's edits while they are being made: held by place, undone one by one, written out in order. Pure. */
import type { Edit, Entry } from "../wire.gen";

/** Where a key or table stands in a file. */
export type Path = readonly (string | number)[];

/** What an entry holds. */
export type Scalar = Entry["value"];

/** One key that is to be changed. `value` null takes the key out. */
export interface Change {
  readonly file: string;
  readonly path: Path;
  readonly value: Scalar;
}

/** A table that is put in, by a name of the owner's or, in a list, before the place `path` ends in. */
export interface Added {
  readonly file: string;
  readonly path: Path;
  readonly values: Readonly<Record<string, string | boolean | string[]>>;
}

/** All edits that are not saved yet. A file edited as text holds no other edits. */
export interface Edits {
  readonly changes: readonly Change[];
  readonly added: readonly Added[];
  readonly removed: readonly { readonly file: string; readonly path: Path }[];
  readonly texts: Readonly<Record<string, string>>;
}

export const NO_EDITS: Edits = { changes: [], added: [], removed: [], texts: {} };

/** Whether two paths, or two values, say the same. */
export function same(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

const at =
  (file: string, path: Path) =>
  (one: { readonly file: string; readonly path: Path }): boolean =>
    one.file === file && same(one.path, path);

/** Whether `path` is `table` itself or leads into it. */
export function within(path: Path, table: Path): boolean {
  return path.length >= table.length && table.every((part, index) => part === path[index]);
}

/** Sets a key; setting it back to what is written (where that is known) takes the change away. */
export function setKey(edits: Edits, file: string, path: Path, value: Scalar, written?: Scalar): Edits {
  const others = edits.changes.filter((one) => !at(file, path)(one));
  const changes = same(value, written) ? others : [...others, { file, path, value }];
  return { ...edits, changes };
}

/** Puts a table in, or replaces the values of one that was put in before. */
export function putTable(edits: Edits, table: Added): Edits {
  const place = edits.added.findIndex(at(table.file, table.path));
  if (place < 0) return { ...edits, added: [...edits.added, table] };
  return { ...edits, added: edits.added.map((one, index) => (index === place ? table : one)) };
}

/** Takes out a table that was put in and is not saved. */
export function dropTable(edits: Edits, file: string, path: Path): Edits {
  return { ...edits, added: edits.added.filter((one) => !at(file, path)(one)) };
}

/** Takes a written table out, with the changes made inside it, or leaves it in again. */
export function toggleTable(edits: Edits, file: string, path: Path): Edits {
  if (isRemoved(edits, file, path)) {
    return { ...edits, removed: edits.removed.filter((one) => !at(file, path)(one)) };
  }
  return {
    ...edits,
    changes: edits.changes.filter((one) => one.file !== file || !within(one.path, path)),
    removed: [...edits.removed, { file, path }],
  };
}

export function isRemoved(edits: Edits, file: string, path: Path): boolean {
  return edits.removed.some(at(file, path));
}

/** Edits a file as text: its other edits give way. The text as written takes the edit away. */
export function setText(edits: Edits, file: string, text: string, written: string): Edits {
  const { [file]: _old, ...texts } = edits.texts;
  const elsewhere = <One extends { readonly file: string }>(all: readonly One[]): One[] =>
    all.filter((one) => one.file !== file);
  return {
    changes: elsewhere(edits.changes),
    added: elsewhere(edits.added),
    removed: elsewhere(edits.removed),
    texts: text === written ? texts : { ...texts, [file]: text },
  };
}

/** What a key holds with the edits made. */
export function heldAt(edits: Edits, file: string, path: Path, written: Scalar): Scalar {
  const change = edits.changes.find(at(file, path));
  return change ? change.value : written;
}

/** How many edits there are, each place once. */
export function countOf(edits: Edits): number {
  return edits.changes.length + edits.added.length + edits.removed.length + Object.keys(edits.texts).length;
}

/** How many edits are made inside a table. */
export function countIn(edits: Edits, file: string, path: Path): number {
  const inside = (one: { readonly file: string; readonly path: Path }): boolean =>
    one.file === file && within(one.path, path);
  return (
    edits.changes.filter(inside).length +
    edits.added.filter(inside).length +
    edits.removed.filter(inside).length +
    (file in edits.texts ? 1 : 0)
  );
}

/**
 * The edits as the service applies them, one after the other. Keys come first, while every table stands
 * where it was read; then tables in lists from the last place back, so that no place before them moves.
 */
export function toSend(edits: Edits): Edit[] {
  const tables = [
    ...edits.removed.map(({ file, path }) => ({ file, path, value: null })),
    ...edits.added.map(({ file, path, values }) => ({ file, path, value: values })),
  ];
  const last = (path: Path): number => {
    const part = path[path.length - 1];
    return typeof part === "number" ? part : -1;
  };
  // A stable sort: at one place the old table is taken out before the new one is put in.
  tables.sort((a, b) => last(b.path) - last(a.path));
  return [
    ...Object.entries(edits.texts).map(([file, text]) => ({ file, path: [], value: text })),
    ...edits.changes.map(({ file, path, value }) => ({ file, path: [...path], value })),
    ...tables.map(({ file, path, value }) => ({ file, path: [...path], value })),
  ];
}

/** Edits that came from the service (a brand, a weighing), taken over among those being made. */
export function takeOver(edits: Edits, more: readonly Edit[]): Edits {
  return more.reduce<Edits>((all, { file, path, value }) => {
    const plain = typeof value !== "object" || value === null || Array.isArray(value);
    return plain ? setKey(all, file, path, value as Scalar) : all;
  }, edits);
}
