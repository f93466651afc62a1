/**
 * Alike cups as one row. The build is for one cup, whatever the number; but three of the same drink are scooped,
 * poured and shaken side by side, and so read and worked as "3 ×". Whoever has one shaker works them one by one:
 * they are then taken apart, on this screen. Cups that stand at different steps are never one row. Pure, but for what
 * this screen has taken apart.
 */
import { signal } from "@preact/signals";
import type { Row } from "../../link/queue";
import type { QueueDrink } from "../../wire.gen";

/** Timers that were started within so many ms of each other are read as one. */
const TOGETHER_MS = 2000;

/** What has been taken apart on this screen, by `kindOf`. */
export const apart = signal<ReadonlySet<string>>(new Set());

/** What a row is a cup of: cups of one ticket, one build, one note and one mark have the same. */
export function kindOf(row: Row): string {
  const { build, note, changed_at, remade_at } = row.drink;
  return JSON.stringify([row.ticket.id, build, note, changed_at, remade_at]);
}

/** Takes alike cups apart, or puts them together again. */
export function turnApart(row: Row): void {
  const kind = kindOf(row);
  const others = [...apart.value].filter((one) => one !== kind);
  apart.value = new Set(others.length < apart.value.size ? others : [...others, kind]);
}

/** Whether two cups of a kind stand at the same: every step alike, and what runs begun together. */
export function abreast(one: QueueDrink, other: QueueDrink): boolean {
  if ((one.state === "void") !== (other.state === "void")) return false;
  return one.steps.every((step, index) => {
    const beside = other.steps[index];
    if (beside?.state !== step.state) return false;
    if (step.state !== "running") return true;
    return Math.abs((step.started_at ?? 0) - (beside.started_at ?? 0)) <= TOGETHER_MS;
  });
}

/** The rows with alike cups put together where the first of them stands, but for the kinds taken apart. */
export function folded(rows: readonly Row[], takenApart: ReadonlySet<string>): Row[] {
  const found: Row[] = [];
  for (const row of rows) {
    const kind = kindOf(row);
    const place = takenApart.has(kind)
      ? -1
      : found.findIndex((one) => kindOf(one) === kind && abreast(one.drink, row.drink));
    const first = found[place];
    if (first) found[place] = { ...first, cups: [...first.cups, ...row.cups] };
    else found.push(row);
  }
  return found;
}

/** How many cups these rows are, void ones left aside. */
export function cupsOf(rows: readonly Row[]): number {
  return rows.reduce((sum, row) => sum + (row.drink.state === "void" ? 0 : row.cups.length), 0);
}

/** "3 × Large Taro Milk Tea", and the plain title of a single cup. */
export function titleOf(row: Row): string {
  return row.cups.length > 1 ? `${row.cups.length} × ${row.build.title}` : row.build.title;
}
