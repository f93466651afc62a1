/** The owner's edits while they are being made: held by place, undone one by one. Pure. */
import type { Edit } from "../../wire.gen";

/** Where a key or table stands in a file as it was read; a table that was put in a list has a name for a place. */
export type Path = readonly (string | number)[];

/** What a key holds; null where it is not written. */
export type Scalar = string | boolean | string[] | null;

export type Values = Readonly<Record<string, string | boolean | string[]>>;

/** A table of a file. */
export interface Place {
  readonly file: string;
  readonly path: Path;
}

/** One key that is to be changed. `value` null takes the key out. */
export interface Change extends Place {
  readonly value: Scalar;
}

/** A table that is put in by an id of its own; `values` are those that it begins with. */
export interface Added extends Place {
  readonly values: Values;
}

/** A table that is put in a list; `fresh` is its name in paths, such as "+1". */
export interface Fresh {
  readonly fresh: string;
  readonly values: Values;
}

/** A member of a list: the place where it was read, that of one taken out, or one that is put in. */
export type Item = number | { readonly out: number } | Fresh;

/** A list of tables in another order than it was read in. */
export interface Order extends Place {
  readonly items: readonly Item[];
}

/**
 * All edits that are not saved yet. `texts` come first, whole files by name; everything else is about the files
 * as they are with those texts. A file that is taken away is removed at the empty path.
 */
export interface Edits {
  readonly changes: readonly Change[];
  readonly added: readonly Added[];
  readonly removed: readonly Place[];
  readonly orders: readonly Order[];
  readonly texts: Readonly<Record<string, string>>;
}

export const NO_EDITS: Edits = { changes: [], added: [], removed: [], orders: [], texts: {} };

/** Whether two paths, or two values, say the same. */
export function same(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

/** Tells the one that stands at a place. */
export const at =
  (file: string, path: Path) =>
  (one: Place): boolean =>
    one.file === file && same(one.path, path);

/** Whether `path` is `table` itself or leads into it. */
export function within(path: Path, table: Path): boolean {
  return path.length >= table.length && table.every((part, index) => part === path[index]);
}

/** Those that do not stand at a place nor inside it. */
export function outside<One extends Place>(all: readonly One[], file: string, path: Path): One[] {
  return all.filter((one) => one.file !== file || !within(one.path, path));
}

/** Sets a key; setting it back to what is written (where that is known) takes the change away. */
export function setKey(edits: Edits, file: string, path: Path, value: Scalar, written?: Scalar): Edits {
  const others = edits.changes.filter((one) => !at(file, path)(one));
  const changes = same(value, written) ? others : [...others, { file, path, value }];
  return { ...edits, changes };
}

/** Puts a table in by a new id. */
export function putTable(edits: Edits, table: Added): Edits {
  return { ...edits, added: [...edits.added.filter((one) => !at(table.file, table.path)(one)), table] };
}

/** Takes out a table that was put in and is not saved, with all that was changed inside it. */
export function dropTable(edits: Edits, file: string, path: Path): Edits {
  return {
    ...edits,
    added: edits.added.filter((one) => !at(file, path)(one)),
    changes: outside(edits.changes, file, path),
  };
}

/** Takes a written table out, or leaves it in again; changes made inside it wait for that. */
export function toggleTable(edits: Edits, file: string, path: Path): Edits {
  const removed = isRemoved(edits, file, path)
    ? edits.removed.filter((one) => !at(file, path)(one))
    : [...edits.removed, { file, path }];
  return { ...edits, removed };
}

export function isRemoved(edits: Edits, file: string, path: Path): boolean {
  return edits.removed.some(at(file, path));
}

/** The edits without any of one file. */
export function withoutFile(edits: Edits, file: string): Edits {
  const elsewhere = <One extends Place>(all: readonly One[]): One[] => outside(all, file, []);
  const { [file]: _text, ...texts } = edits.texts;
  return {
    changes: elsewhere(edits.changes),
    added: elsewhere(edits.added),
    removed: elsewhere(edits.removed),
    orders: elsewhere(edits.orders),
    texts,
  };
}

/**
 * Sets the whole text of a file, in which the edits of its forms have been written already. The text as `written`
 * in the folder, undefined for a file that is not there, takes the edit away.
 */
export function setText(edits: Edits, file: string, text: string, written: string | undefined): Edits {
  const others = withoutFile(edits, file);
  return text === written ? others : { ...others, texts: { ...others.texts, [file]: text } };
}

/** What a key holds with the edits made. */
export function heldAt(edits: Edits, file: string, path: Path, written: Scalar): Scalar {
  const change = edits.changes.find(at(file, path));
  return change ? change.value : written;
}

/** How many edits a list's new order is: each member put in or taken out, and one where others were moved. */
function countOfOrder({ items }: Order): number {
  const read = items.map((item) => (typeof item === "number" || !("out" in item) ? item : item.out));
  const places = read.filter((item): item is number => typeof item === "number");
  const moved = places.some((place, index) => place < (places[index - 1] ?? place));
  return items.filter((item) => typeof item !== "number").length + (moved ? 1 : 0);
}

function countOfOrders(orders: readonly Order[]): number {
  return orders.reduce((count, order) => count + countOfOrder(order), 0);
}

/** How many edits there are, each place once. */
export function countOf(edits: Edits): number {
  const { changes, added, removed, orders, texts } = edits;
  return changes.length + added.length + removed.length + countOfOrders(orders) + Object.keys(texts).length;
}

/** How many edits are made inside a table, or with `path` empty in a file. */
export function countIn(edits: Edits, file: string, path: Path): number {
  const inside = (one: Place): boolean => one.file === file && within(one.path, path);
  const all: Place[] = [...edits.changes, ...edits.added, ...edits.removed];
  const text = path.length === 0 && file in edits.texts ? 1 : 0;
  return all.filter(inside).length + countOfOrders(edits.orders.filter(inside)) + text;
}

/** The files that any edit is about. */
export function filesOf(edits: Edits): string[] {
  const all: Place[] = [...edits.changes, ...edits.added, ...edits.removed, ...edits.orders];
  return [...new Set([...Object.keys(edits.texts), ...all.map((one) => one.file)])].sort();
}

/** The edits of some files only. */
export function onlyIn(edits: Edits, files: readonly string[]): Edits {
  const inside = <One extends Place>(all: readonly One[]): One[] =>
    all.filter((one) => files.includes(one.file));
  return {
    changes: inside(edits.changes),
    added: inside(edits.added),
    removed: inside(edits.removed),
    orders: inside(edits.orders),
    texts: Object.fromEntries(Object.entries(edits.texts).filter(([file]) => files.includes(file))),
  };
}

/** Edits of keys that came from the service (a brand, a weighing), taken over among those being made. */
export function takeOver(edits: Edits, more: readonly Edit[]): Edits {
  return more.reduce<Edits>((all, { file, path, value }) => {
    const table = typeof value === "object" && value !== null && !Array.isArray(value);
    return table ? all : setKey(all, file, path, value as Scalar);
  }, edits);
}
