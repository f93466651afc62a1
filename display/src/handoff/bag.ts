/** What goes over the counter for one number, in words, so that the bag can be checked. Pure. */
import type { Build, Ticket } from "../wire.gen";

/** Cups that are alike: how many, what they are, what bends them, their note, and whether they were changed or made again. */
export interface InBag {
  readonly count: number;
  readonly title: string;
  readonly words: readonly string[];
  readonly note: string;
  readonly altered: boolean;
}

/** The ticket's cups that are not void, alike ones together, in the order they were rung in. */
export function bagOf(ticket: Ticket, builds: Readonly<Record<string, Build>>): InBag[] {
  const found = new Map<string, InBag>();
  for (const drink of ticket.drinks) {
    if (drink.state === "void") continue;
    const altered = drink.changed_at != null || drink.remade_at != null;
    const kind = JSON.stringify([drink.build, drink.note, altered]);
    const build = builds[drink.build];
    const count = (found.get(kind)?.count ?? 0) + 1;
    found.set(kind, {
      count,
      title: build?.title ?? "A drink",
      words: build?.words ?? [],
      note: drink.note,
      altered,
    });
  }
  return [...found.values()];
}
