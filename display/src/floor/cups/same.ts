/**
 * Alike drinks of different tickets, marked so that a bar makes them in one go. They stay rows of their own, in the
 * order of the queue: each is bumped for its own number. A letter ties them together at a glance, the numbers in words.
 */
import { computed } from "@preact/signals";
import { openRows, type Row } from "../../link/queue";
import { queue } from "../../link/shop";
import { doneEverywhere } from "./where";

/** What the alike drinks of several tickets share: a letter (none once all are taken) and their numbers. */
export interface Same {
  readonly letter: string;
  readonly numbers: readonly number[];
}

/** Without I and O, which read as figures. */
const LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ";

/** As many numbers are named; of more it is said how many. */
const NAMED = 3;

/** What makes a drink the same as another, whoever ordered it: its build and its note. */
export function sortOf(row: Row): string {
  return JSON.stringify([row.drink.build, row.drink.note]);
}

/**
 * What of these rows is the same on several tickets, by `sortOf`. A sort keeps the letter that it had in `before`; a new
 * one gets the first that is free.
 */
export function sameSorts(rows: readonly Row[], before: ReadonlyMap<string, Same>): Map<string, Same> {
  const numbers = new Map<string, Map<string, number>>();
  for (const row of rows) {
    if (row.drink.state === "void" || doneEverywhere(row)) continue;
    const sort = sortOf(row);
    const known = numbers.get(sort) ?? new Map<string, number>();
    numbers.set(sort, known.set(row.ticket.id, row.ticket.number));
  }
  const several = [...numbers].filter(([, tickets]) => tickets.size > 1);
  const free = new Set(LETTERS);
  for (const [sort] of several) free.delete(before.get(sort)?.letter ?? "");
  const found = new Map<string, Same>();
  for (const [sort, tickets] of several) {
    const letter = before.get(sort)?.letter || ([...free][0] ?? "");
    free.delete(letter);
    found.set(sort, { letter, numbers: [...tickets.values()] });
  }
  return found;
}

/** "same as 46, 47": the other numbers, of many only the first and how many more. */
export function sameWords(same: Same, own: number): string {
  const others = same.numbers.filter((number) => number !== own);
  const more = others.length - NAMED;
  return `same as ${others.slice(0, NAMED).join(", ")}${more > 0 ? ` and ${more} more` : ""}`;
}

let last: ReadonlyMap<string, Same> = new Map();

/** What is the same in the queue now. */
export const same = computed(() => {
  last = queue.value ? sameSorts(openRows(queue.value), last) : new Map();
  return last;
});
