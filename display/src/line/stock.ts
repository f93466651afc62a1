/** What has run out, and which drinks and lines that stops. Pure. */
import type { Choice, Menu, MenuDrink } from "../wire.gen";
import type { Draft, Slot } from "./draft";

/**
 * Why a drink cannot be had now: itself or something that it cannot be made without has run out. Milk is not
 * such a thing as long as one of those that the drink can be made with is left.
 */
export function soldOutWhy(menu: Menu, drink: MenuDrink, soldOut: ReadonlySet<string>): string | null {
  if (soldOut.has(drink.id)) return "sold out";
  const out = drink.uses.filter((item) => soldOut.has(item));
  if (out.length === 0) return null;
  const milks = new Set(menu.milks.map((milk) => milk.id));
  if (out.some((item) => !milks.has(item))) return "sold out";
  return drink.milks.some((milk) => !soldOut.has(milk)) ? null : "sold out";
}

/** The names of the milks that the drink's own recipe takes and that have run out. */
export function ownMilkOut(menu: Menu, drink: MenuDrink, soldOut: ReadonlySet<string>): string[] {
  const takes = new Set(drink.uses);
  return menu.milks.filter(({ id }) => takes.has(id) && soldOut.has(id)).map(({ name }) => name);
}

/**
 * The milk that the recipe pours, where choosing it asks for nothing else: it is the only one of the drink's milks
 * in the recipe, and costs nothing. The service takes the two for the same by the same rule.
 */
export function ownMilk(menu: Menu, drink: MenuDrink): Choice | undefined {
  const poured = menu.milks.filter(({ id }) => drink.uses.includes(id));
  const [own] = poured;
  return poured.length === 1 && own && drink.milks.includes(own.id) && (own.price ?? 0) === 0
    ? own
    : undefined;
}

/** Something in a line that has run out, and the word of the sentence under which another can be chosen. */
export interface Missing {
  readonly slot: Slot;
  readonly name: string;
}

/** What of a line has run out. The service has the last word: it looks again when the order is rung in. */
export function missing(
  menu: Menu,
  drink: MenuDrink,
  draft: Draft,
  soldOut: ReadonlySet<string>,
): readonly Missing[] {
  const named = (slot: Slot, list: readonly { id: string; name: string }[], id: string): Missing[] =>
    soldOut.has(id) ? [{ slot, name: list.find((one) => one.id === id)?.name ?? id }] : [];
  const milk =
    draft.milk === null
      ? ownMilkOut(menu, drink, soldOut).map((name): Missing => ({ slot: "milk", name }))
      : named("milk", menu.milks, draft.milk);
  return [
    ...named("drink", menu.drinks, drink.id),
    ...milk,
    ...draft.toppings.flatMap(({ topping }) => named("toppings", menu.toppings, topping)),
  ];
}
