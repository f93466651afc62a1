/** The order being taken: its lines, the name, and the ring-in that must neither be lost nor doubled. */
import { computed, effect, signal } from "@preact/signals";
import { type Draft, drinkOf } from "../../line/draft";
import { newKey, Refused, RING_IN_PAUSES, reason, send } from "../../link/api";
import type { Quote, Receipt, RingIn } from "../../wire.gen";

/** One line of the order list: what was chosen, and what the service made of it. */
export interface OrderLine {
  readonly key: string;
  readonly draft: Draft;
  readonly unit: number;
  readonly title: string;
  readonly words: readonly string[];
  /** The version of the book that `unit` is of; empty while the price has not come. */
  readonly book: string;
  /** The price that was told before the book changed, where it is another now. */
  readonly was: number | null;
  /** Why the line can no longer be made by the book in force. */
  readonly refused: string | null;
}

/** Where the ring-in stands. "unsure": sent, no answer; the order may already be in. */
export type Sending =
  | { readonly state: "idle" }
  | { readonly state: "sending"; readonly failed: number }
  | { readonly state: "unsure"; readonly why: string }
  | { readonly state: "refused"; readonly why: string; readonly details: readonly string[] };

interface Kept {
  readonly lines: readonly OrderLine[];
  readonly name: string;
  readonly key: string | null;
}

const KEPT = "levelscoop.order";

function kept(): Kept {
  try {
    const read = JSON.parse(sessionStorage.getItem(KEPT) ?? "null") as Kept | null;
    if (read && Array.isArray(read.lines)) return read;
  } catch {
    // What cannot be read is as good as an empty order.
  }
  return { lines: [], name: "", key: null };
}

const before = kept();
export const lines = signal<readonly OrderLine[]>(before.lines);
export const customer = signal(before.name);
/** The key of a ring-in that was sent without an answer; kept over a reload of the page. */
const sentKey = signal<string | null>(before.key);
export const sending = signal<Sending>(
  before.key === null
    ? { state: "idle" }
    : { state: "unsure", why: "The page was closed before the answer came." },
);
export const receipt = signal<Receipt | undefined>(undefined);

effect(() => {
  const order: Kept = { lines: lines.value, name: customer.value, key: sentKey.value };
  sessionStorage.setItem(KEPT, JSON.stringify(order));
});

/** Lines taken out of the order, the latest last, each with the place it had: a slip of the finger is put back. */
export const removed = signal<readonly { readonly line: OrderLine; readonly place: number }[]>([]);

/** The line put in or changed last, for the list to bring into view. */
export const latest = signal<string | null>(null);

/** While it is not known whether the order is in, it must not be changed: the same key means the same order. */
export const locked = computed(() => sending.value.state === "sending" || sending.value.state === "unsure");

/** What each line comes to as priced in the book, in minor units. */
export const amounts = computed(() => lines.value.map((line) => line.unit * line.draft.quantity));

/** Cups in the order. */
export const cups = computed(() => lines.value.reduce((sum, line) => sum + line.draft.quantity, 0));

/** Puts a line into the order, or in the place of the one being edited. */
export function putLine(draft: Draft, quote: Quote, place: string | null): void {
  const { title, words, book } = quote.build;
  put({ draft, unit: quote.price, title, words, book }, place);
}

/** The same before its price has come, which is then asked for like that of a line whose book has changed. */
export function putUnpriced(draft: Draft, title: string, place: string | null): void {
  put({ draft, unit: 0, title, words: [], book: "" }, place);
}

function put(told: Omit<OrderLine, "key" | "was" | "refused">, place: string | null): void {
  if (locked.value) return;
  const line: OrderLine = { ...told, key: place ?? newKey(), was: null, refused: null };
  const present = lines.value.some((one) => one.key === place);
  latest.value = line.key;
  removed.value = [];
  lines.value = present ? lines.value.map((one) => (one.key === place ? line : one)) : [...lines.value, line];
  settle();
}

/** Changes how many of a line; none takes it out, until `putBack`. */
export function setQuantity(key: string, quantity: number): void {
  if (locked.value) return;
  const place = lines.value.findIndex((line) => line.key === key);
  const line = lines.value[place];
  if (line && quantity < 1) removed.value = [...removed.value, { line, place }];
  lines.value =
    quantity < 1
      ? lines.value.filter((line) => line.key !== key)
      : lines.value.map((line) =>
          line.key === key ? { ...line, draft: { ...line.draft, quantity: Math.min(50, quantity) } } : line,
        );
  settle();
}

/** Puts the line taken out last back where it was. */
export function putBack(): void {
  const last = removed.value[removed.value.length - 1];
  if (locked.value || !last) return;
  removed.value = removed.value.slice(0, -1);
  lines.value = [...lines.value.slice(0, last.place), last.line, ...lines.value.slice(last.place)];
  latest.value = last.line.key;
  settle();
}

function settle(): void {
  if (sending.value.state === "refused") sending.value = { state: "idle" };
}

/** Empties the order for the next customer. */
export function nextOrder(): void {
  lines.value = [];
  removed.value = [];
  latest.value = null;
  customer.value = "";
  sentKey.value = null;
  sending.value = { state: "idle" };
}

/** Lets go of an order whose answer never came, so that it can be changed or thrown away. */
export function letGo(): void {
  sentKey.value = null;
  sending.value = { state: "idle" };
}

/** Rings the order in, again with the same key where the last try had no answer. */
export async function ringIn(): Promise<Receipt | undefined> {
  if (sending.value.state === "sending" || lines.value.length === 0) return undefined;
  const body: RingIn = {
    name: customer.value.trim(),
    drinks: lines.value.map((line) => drinkOf(line.draft)),
  };
  const key = sentKey.value ?? newKey();
  sentKey.value = key;
  sending.value = { state: "sending", failed: 0 };
  try {
    const answer = await send<Receipt>("/api/orders", body, {
      key,
      pauses: RING_IN_PAUSES,
      onRetry: (failed) => {
        sending.value = { state: "sending", failed };
      },
    });
    nextOrder();
    receipt.value = answer;
    return answer;
  } catch (error) {
    if (error instanceof Refused) {
      sentKey.value = null;
      const details = (error.problem.errors ?? []).map(
        (one) => `${one.field}: ${one.value}. Accepted: ${one.accepted}`,
      );
      sending.value = { state: "refused", why: error.message, details };
    } else {
      sending.value = { state: "unsure", why: reason(error) };
    }
    return undefined;
  }
}
