/** The tables of a list (a recipe's steps): moved, put in, taken out, and where each stands then. Pure. */
import {
  at,
  type Edits,
  type Fresh,
  type Item,
  outside,
  type Path,
  same,
  type Values,
  within,
} from "./edits";

/** What stands for a member in a path: the place where it was read, or its name. */
export function keyOfItem(item: Item): number | string {
  if (typeof item === "number") return item;
  return "out" in item ? item.out : item.fresh;
}

/** Whether a member is in the list, and not only shown as taken out. */
export function isIn(item: Item): item is number | Fresh {
  return typeof item === "number" || "fresh" in item;
}

/** The members of a list of `count` tables, in their present order. */
export function itemsOf(edits: Edits, file: string, path: Path, count: number): readonly Item[] {
  return edits.orders.find(at(file, path))?.items ?? Array.from({ length: count }, (_, place) => place);
}

function withItems(edits: Edits, file: string, path: Path, items: readonly Item[], count: number): Edits {
  const others = edits.orders.filter((one) => !at(file, path)(one));
  const asRead = items.length === count && items.every((item, place) => item === place);
  return { ...edits, orders: asRead ? others : [...others, { file, path, items }] };
}

/** A list that edits are made to: `count` tables were read. */
export interface List {
  readonly file: string;
  readonly path: Path;
  readonly count: number;
}

/** Moves a member before the one above it, or after the one below; at the end of the list nothing changes. */
export function moveItem(edits: Edits, { file, path, count }: List, key: number | string, by: -1 | 1): Edits {
  const items = [...itemsOf(edits, file, path, count)];
  const from = items.findIndex((item) => keyOfItem(item) === key);
  let to = from + by;
  // One that is taken out is no neighbour.
  while (items[to] !== undefined && !isIn(items[to] as Item)) to += by;
  const [moved] = from < 0 ? [] : items.slice(from, from + 1);
  if (moved === undefined || to < 0 || to >= items.length) return edits;
  items.splice(from, 1);
  items.splice(to, 0, moved);
  return withItems(edits, file, path, items, count);
}

/** Puts a table in after a member (null: before all); its name is told with the edits. */
export function putItem(
  edits: Edits,
  { file, path, count }: List,
  after: number | string | null,
  values: Values,
): { edits: Edits; fresh: string } {
  const items = [...itemsOf(edits, file, path, count)];
  const numbers = items.map((item) => (typeof item === "object" && "fresh" in item ? Number(item.fresh) : 0));
  const fresh = `+${Math.max(0, ...numbers) + 1}`;
  const place = after === null ? 0 : items.findIndex((item) => keyOfItem(item) === after) + 1;
  items.splice(place, 0, { fresh, values });
  return { edits: withItems(edits, file, path, items, count), fresh };
}

/** Takes a member out, or leaves it in again; one that was put in goes with all that was changed in it. */
export function toggleItem(edits: Edits, { file, path, count }: List, key: number | string): Edits {
  const items = itemsOf(edits, file, path, count);
  if (typeof key === "string") {
    const left = items.filter((item) => keyOfItem(item) !== key);
    const changes = outside(edits.changes, file, [...path, key]);
    return withItems({ ...edits, changes }, file, path, left, count);
  }
  const turned = items.map((item): Item => {
    if (keyOfItem(item) !== key) return item;
    return isIn(item) ? { out: key } : key;
  });
  return withItems(edits, file, path, turned, count);
}

/**
 * A path as it is once the lists have their present order, or undefined where it leads into something that
 * is taken out.
 */
export function pathNow(edits: Edits, file: string, path: Path): Path | undefined {
  const order = edits.orders.find((one) => one.file === file && within(path, one.path));
  const key = order && path[order.path.length];
  if (!order || key === undefined) return path;
  const place = order.items.filter(isIn).findIndex((item) => keyOfItem(item) === key);
  if (place < 0) return undefined;
  return [...order.path, place, ...path.slice(order.path.length + 1)];
}

/** The values that a table which was put in began with, by its path. */
export function begunWith(edits: Edits, file: string, path: Path): Values | undefined {
  const added = edits.added.find(at(file, path));
  if (added) return added.values;
  const order = edits.orders.find((one) => one.file === file && same(one.path, path.slice(0, -1)));
  const key = path[path.length - 1];
  return order?.items.find(
    (item): item is Fresh => typeof item === "object" && "fresh" in item && item.fresh === key,
  )?.values;
}
