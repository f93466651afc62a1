/** The live quote of the line being rung in: asked for at each change, a stale answer never shown. */
import { effect, signal } from "@preact/signals";
import { Refused, reason, send } from "../api";
import type { Problem, Quote } from "../wire.gen";
import { type Draft, lineOf, type Slot } from "./draft";

/** What the service says of a draft. `draft` is the one that the answer belongs to. */
export type Quoted =
  | { readonly state: "none" }
  | { readonly state: "asking"; readonly last: Quote | null }
  | { readonly state: "quote"; readonly draft: Draft; readonly quote: Quote }
  | { readonly state: "refused"; readonly slot: Slot | null; readonly why: string; readonly accepted: string }
  | { readonly state: "down"; readonly why: string };

const SLOTS: readonly Slot[] = ["size", "drink", "ice", "sugar", "milk", "toppings", "shots", "without"];

/** The word of the sentence that a problem is about, where it names one. */
export function slotOf(problem: Problem): Slot | null {
  const field = problem.errors?.[0]?.field ?? "";
  return SLOTS.find((slot) => field.split(/[.[\]/]/).includes(slot)) ?? null;
}

/** The draft being edited (undefined: none), and what it is quoted at. */
export const draft = signal<Draft | undefined>(undefined);
export const quoted = signal<Quoted>({ state: "none" });
/** Counted up to ask once more, say when the link is back. */
export const askAgain = signal(0);

effect(() => {
  const asked = draft.value;
  void askAgain.value;
  if (!asked) {
    quoted.value = { state: "none" };
    return undefined;
  }
  const stale = new AbortController();
  void quoteOf(asked, stale.signal);
  return () => stale.abort();
});

async function quoteOf(asked: Draft, signal: AbortSignal): Promise<void> {
  const shown = quoted.peek();
  quoted.value = { state: "asking", last: lastQuote(shown) };
  try {
    const quote = await send<Quote>("/api/quote", lineOf(asked), { signal });
    if (!signal.aborted) quoted.value = { state: "quote", draft: asked, quote };
  } catch (error) {
    if (signal.aborted) return;
    quoted.value =
      error instanceof Refused
        ? {
            state: "refused",
            slot: slotOf(error.problem),
            why: error.message,
            accepted: error.problem.errors?.[0]?.accepted ?? "",
          }
        : { state: "down", why: reason(error) };
  }
}

/** The quote to go on showing while the next one is on its way. */
export function lastQuote(shown: Quoted): Quote | null {
  if (shown.state === "quote") return shown.quote;
  return shown.state === "asking" ? shown.last : null;
}
