/**
 * The drink that is open in the middle: begun, put into the order, put aside, taken up again.
 *
 * Whoever has a queue before them does not touch *Add to order* after every drink: starting the next drink and
 * ringing in put the open one into the order by themselves, and say so. What cannot be put in (it cannot be made
 * as it stands) stays open, and the touch that would have replaced it does nothing but tell why.
 */
import { batch, computed, effect, signal, untracked } from "@preact/signals";
import { BOUNCE_MS } from "../../floor/acts";
import { changeDrink, type Draft, menuDrink, plainDraft, type Slot } from "../../line/draft";
import { menu } from "../../link/shop";
import type { Line, Menu } from "../../wire.gen";
import { wish } from "../focus";
import {
  latest,
  lines,
  locked,
  type OrderLine,
  putLine,
  putUnpriced,
  receipt,
  ringIn,
  sending,
} from "../order/order";
import { outdated } from "../order/repricing";
import { askAgain, draft, quoted, quotedCup } from "./quoting";
import { type CupInHand, changing, cup, editing, open, short } from "./state";

const KEPT = "levelscoop.drink";

/** What of the open drink outlives a reload, and a look at another page. */
interface Kept {
  readonly draft: Draft;
  readonly editing: string | null;
  readonly cup: CupInHand | null;
  readonly changing: boolean;
  readonly open: Slot | null;
}

function kept(): Kept | null {
  try {
    const read = JSON.parse(sessionStorage.getItem(KEPT) ?? "null") as Kept | null;
    if (read && typeof read.draft?.drink === "string" && Array.isArray(read.draft.toppings)) return read;
  } catch {
    // What cannot be read is as good as no drink.
  }
  return null;
}

const before = kept();
if (before && draft.peek() === undefined) {
  batch(() => {
    cup.value = before.cup;
    quotedCup.value = before.cup?.id ?? null;
    editing.value = before.editing;
    changing.value = before.changing;
    open.value = before.open;
    draft.value = before.draft;
  });
}

effect(() => {
  const line = draft.value;
  const now: Kept | null = line
    ? { draft: line, editing: editing.value, cup: cup.value, changing: changing.value, open: open.value }
    : null;
  sessionStorage.setItem(KEPT, JSON.stringify(now));
});

/** Why the open drink was not put into the order when that was asked; empty once it is another. */
export const stuck = signal("");
effect(() => {
  void draft.value;
  stuck.value = "";
});

/** The line that the last drink became by itself, by its key: not wanted, it is taken out with one touch. */
export const added = signal<string | null>(null);

/** The drink that was cancelled last, to be taken up again with one touch. */
export const aside = signal<Kept | null>(null);

/** The drink chosen last, for the focus to come back to. */
export const lastChosen = signal<string | null>(null);

/** True from the touch on *Ring in* until the price of the open drink has come. */
export const ringing = signal(false);

/** Whether the open drink is one more for the order, or another version of one of its lines. */
export const forOrder = computed(() => draft.value !== undefined && cup.value === null);

function plainTitle(held: Menu | undefined, line: Draft): string {
  const size = held?.sizes.find((one) => one.id === line.size)?.name ?? line.size;
  const drink = held && menuDrink(held, line);
  return `${size} ${drink?.name ?? line.drink}`;
}

function close(): void {
  batch(() => {
    draft.value = undefined;
    cup.value = null;
    quotedCup.value = null;
    editing.value = null;
    changing.value = false;
    open.value = null;
  });
}

/** Ends the open drink once it is where it belongs. */
export function done(): void {
  aside.value = null;
  close();
}

/** Closes the open drink without putting it in; it can be taken up again. */
export function cancel(): void {
  const line = draft.value;
  if (!line) return;
  const was = lines.value.find((one) => one.key === editing.value);
  const same = was ? JSON.stringify(was.draft) === JSON.stringify(line) : false;
  aside.value =
    same || cup.value
      ? null
      : { draft: line, editing: editing.value, cup: null, changing: false, open: open.value };
  close();
  wish("drinks");
}

/** Takes the drink that was cancelled last up again. */
export function takeUp(): void {
  const back = aside.value;
  if (!back || !putIn()) return;
  batch(() => {
    aside.value = null;
    editing.value = lines.value.some((one) => one.key === back.editing) ? back.editing : null;
    open.value = back.open ?? "size";
    draft.value = back.draft;
  });
  wish("sentence");
}

/** Why the open drink cannot be put into the order as it stands; empty if it can. */
function hindrance(): string {
  if (cup.value) return `A cup of number ${cup.value.number} is being changed: finish or cancel that first.`;
  if (locked.value) return "The order may be in already: ring it in again, or change it, first.";
  const now = quoted.value;
  if (short.value.length > 0 || now.state === "refused")
    return "This drink cannot be made as it stands: change it, or cancel it.";
  return "";
}

/** Puts the open drink into the order. False, with the reason in `stuck`, where it has to stay open. */
export function putIn(): boolean {
  const line = draft.value;
  if (!line) return true;
  const why = hindrance();
  stuck.value = why;
  if (why !== "") return false;
  const now = quoted.value;
  if (now.state === "quote" && now.draft === line) putLine(line, now.quote, editing.value);
  else putUnpriced(line, plainTitle(menu.value, line), editing.value);
  done();
  return true;
}

/** When *Add to order* and a drink were last touched: a finger that bounces must neither ring in nor add a drink. */
let addedAt = Number.NEGATIVE_INFINITY;
let chosenAt = Number.NEGATIVE_INFINITY;
const bounced = (since: number): boolean => performance.now() - since < BOUNCE_MS;

/** On a phone *Ring in* comes up where *Add to order* stood (register-hand.css); elsewhere they lie apart. */
const inTheHand = (): boolean => typeof matchMedia === "function" && matchMedia("(max-width: 860px)").matches;

/** A touch on *Add to order*. */
export function add(): void {
  if (!putIn()) return;
  addedAt = performance.now();
  added.value = null;
  wish("ring in");
}

/** A touch on a drink of the menu: another drink for the line that is being changed, or the next one. */
export function choose(id: string): void {
  const drink = menu.value?.drinks.find((one) => one.id === id);
  if (!drink || (id === lastChosen.value && bounced(chosenAt))) return;
  const now = draft.value;
  if (now && (changing.value || cup.value)) {
    draft.value = changeDrink(now, drink);
  } else {
    const next = editing.value === null && now !== undefined;
    if (!putIn()) return;
    // The next customer's drink is chosen: the last one's receipt has been read.
    receipt.value = undefined;
    aside.value = null;
    added.value = next ? latest.value : null;
    draft.value = plainDraft(drink);
  }
  lastChosen.value = id;
  chosenAt = performance.now();
  changing.value = false;
  // Where the drink's own milk is out, another one is the first thing to choose.
  open.value = short.value[0]?.slot ?? "size";
  wish("sentence");
}

/** A touch on a line of the order. */
export function edit(line: OrderLine): void {
  if (locked.value || editing.value === line.key || !putIn()) return;
  batch(() => {
    added.value = null;
    editing.value = line.key;
    changing.value = false;
    open.value = "size";
    draft.value = line.draft;
  });
  wish("sentence");
}

/** Opens a cup that is rung in, to let it be another. */
export function changeCup(which: CupInHand, line: Line, note: string): boolean {
  if (cup.value?.id !== which.id && !putIn()) return false;
  batch(() => {
    receipt.value = undefined;
    added.value = null;
    cup.value = which;
    quotedCup.value = which.id;
    askAgain.value += 1;
    changing.value = false;
    open.value = "sugar";
    draft.value = { ...line, quantity: 1, note };
  });
  wish("sentence");
  return true;
}

/** Rings the order in, with the open drink. Where its price is on its way, as soon as that has come. */
export function ringInAll(): void {
  if (bounced(addedAt) && inTheHand()) return;
  if (locked.value || !forOrder.value) {
    void ringIn();
    return;
  }
  if (quoted.value.state === "asking") {
    ringing.value = true;
    return;
  }
  if (!putIn()) {
    wish("sentence");
    return;
  }
  added.value = null;
  if (outdated.value === undefined) void ringIn();
}

effect(() => {
  if (!ringing.value || quoted.value.state === "asking") return;
  ringing.value = false;
  untracked(ringInAll);
});

/** After a receipt: the next customer. */
export function nextCustomer(): void {
  receipt.value = undefined;
  lastChosen.value = null;
  wish("drinks");
}

/** Whether there is anything to ring in, and nothing that is only on its way. */
export const canRingIn = computed(
  () =>
    (lines.value.length > 0 || forOrder.value) &&
    sending.value.state !== "sending" &&
    !ringing.value &&
    outdated.value === undefined,
);
