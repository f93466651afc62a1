/** The live quote of the line being rung in: asked for at each change, a stale answer never shown. */
import { effect, signal } from "@preact/signals";
import { type Draft, lineOf, type Slot } from "../../line/draft";
import { Refused, reason, send, Unreachable } from "../../link/api";
import type { Difference, LineIn, Problem, Quote } from "../../wire.gen";

/** A quote; of a cup that is rung in also what its order comes to now, and what it would. */
export type Told = Quote & Partial<Pick<Difference, "due" | "after">>;

/** What the service says of a draft. `draft` is the one that the answer belongs to. */
export type Quoted =
  | { readonly state: "none" }
  | { readonly state: "asking"; readonly last: Told | null }
  | { readonly state: "quote"; readonly draft: Draft; readonly quote: Told }
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
/** The cup that the draft is a change of, by its id; null for a drink of the order being taken. */
export const quotedCup = signal<string | null>(null);
/** Counted up to ask once more, say when the link is back. */
export const askAgain = signal(0);

/** A quote that got no answer is asked for again after so many ms. */
const AGAIN_MS = 3000;

let askedFor = askAgain.peek();

effect(() => {
  const asked = draft.value;
  const again = askAgain.value;
  const shown = quoted.peek();
  if (!asked) {
    quoted.value = { state: "none" };
    return undefined;
  }
  // How many and what is noted do not change the cup: what is known of it goes on being shown.
  if (shown.state === "quote" && again === askedFor && sameCup(shown.draft, asked)) {
    quoted.value = { ...shown, draft: asked };
    return undefined;
  }
  askedFor = again;
  const stale = new AbortController();
  void quoteOf(asked, quotedCup.peek(), stale.signal);
  return () => stale.abort();
});

/** What the service says of a line, alone or in the place of a cup. */
async function told(line: LineIn, cup: string | null, signal: AbortSignal): Promise<Told> {
  if (cup === null) return send<Quote>("/api/quote", line, { signal });
  const { build, ...sums } = await send<Difference>(`/api/drinks/${cup}/difference`, { line }, { signal });
  if (!build) throw new Unreachable("The service did not tell the build.");
  return { ...sums, build };
}

async function quoteOf(asked: Draft, cup: string | null, signal: AbortSignal): Promise<void> {
  const shown = quoted.peek();
  quoted.value = { state: "asking", last: lastQuote(shown) };
  try {
    const quote = await told(lineOf(asked), cup, signal);
    if (!signal.aborted) quoted.value = { state: "quote", draft: asked, quote };
  } catch (error) {
    if (signal.aborted) return;
    if (error instanceof Refused) {
      const accepted = error.problem.errors?.[0]?.accepted ?? "";
      quoted.value = { state: "refused", slot: slotOf(error.problem), why: error.message, accepted };
      return;
    }
    quoted.value = { state: "down", why: reason(error) };
    const again = setTimeout(() => {
      askAgain.value += 1;
    }, AGAIN_MS);
    signal.addEventListener("abort", () => clearTimeout(again));
  }
}

function sameCup(one: Draft, other: Draft): boolean {
  return JSON.stringify(lineOf(one)) === JSON.stringify(lineOf(other));
}

/** What must be told of a cup. */
export interface Telling {
  readonly contains: string;
  readonly caffeine: string;
  readonly cautions: readonly string[];
  readonly notes: readonly string[];
}

/** What stands where a figure cannot be told. */
export const UNKNOWN = "not known";

/** What must be told of the line as it stands: never what was true of the one before. */
export function telling(shown: Quoted): Telling {
  if (shown.state === "asking") return untold("asking …");
  if (shown.state !== "quote") return untold(UNKNOWN);
  const { allergens, facts, cautions, notes } = shown.quote.build;
  const contains = allergens.length > 0 ? allergens.join(", ") : "ask us";
  const caffeine = facts ? `${Math.round(facts.caffeine_mg)} mg` : UNKNOWN;
  const words = (said: readonly { readonly words: string }[]): string[] => said.map((one) => one.words);
  return { contains, caffeine, cautions: words(cautions), notes: words(notes) };
}

const untold = (why: string): Telling => ({ contains: why, caffeine: why, cautions: [], notes: [] });

/** The quote whose drawing and figures go on being shown while the next one is on its way. */
export function lastQuote(shown: Quoted): Told | null {
  if (shown.state === "quote") return shown.quote;
  return shown.state === "asking" ? shown.last : null;
}
