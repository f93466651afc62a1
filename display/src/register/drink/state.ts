/** What the register's parts share about the line being rung in. */
import { computed, signal } from "@preact/signals";
import { menuDrink, type Slot } from "../../line/draft";
import { type Missing, missing } from "../../line/stock";
import { menu, queue } from "../../link/shop";
import { draft } from "./quoting";

/** The word of the sentence whose choices are open. */
export const open = signal<Slot | null>(null);

/** The order line being edited again, by its key; null for a new one. */
export const editing = signal<string | null>(null);

/** A cup of an order that is rung in, while it is being made another. */
export interface CupInHand {
  readonly id: string;
  readonly number: number;
  readonly name: string;
  /** What it is so far, in words. */
  readonly was: string;
}

/** The cup whose change is open in the middle; null while an order is being taken. */
export const cup = signal<CupInHand | null>(null);

/** True while another drink is being chosen for the line, keeping its other choices. */
export const changing = signal(false);

/** The ids of what has run out. */
export const soldOut = computed<ReadonlySet<string>>(() => new Set(queue.value?.soldOut ?? []));

/** What of the line being rung in has run out. */
export const short = computed<readonly Missing[]>(() => {
  const held = menu.value;
  const line = draft.value;
  const drink = held && line && menuDrink(held, line);
  return drink ? missing(held, drink, line, soldOut.value) : [];
});
