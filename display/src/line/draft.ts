/** The line being rung in, as plain values, and the changes that a touch makes to it. Pure. */
import type { DrinkIn, LineIn, Menu, MenuDrink, ToppingIn } from "../wire.gen";

/** The ice choice that is not an ice level (recipes/model.py). */
export const HOT = "hot";

/** The parts of a line that can be chosen, each a word of the sentence. */
export type Slot =
  | "quantity"
  | "size"
  | "drink"
  | "ice"
  | "sugar"
  | "milk"
  | "toppings"
  | "shots"
  | "without"
  | "note";

/** One drink of an order while it is being chosen. `milk` null keeps the recipe's own. */
export interface Draft {
  readonly drink: string;
  readonly size: string;
  readonly sugar: number;
  readonly ice: string;
  readonly shots: number;
  readonly toppings: readonly ToppingIn[];
  readonly milk: string | null;
  readonly without: readonly string[];
  readonly quantity: number;
  readonly note: string;
}

/** The drink as it is when nothing is said. */
export function plainDraft(drink: MenuDrink): Draft {
  const line = drink.default;
  return {
    drink: drink.id,
    size: line.size,
    sugar: line.sugar,
    ice: line.ice,
    shots: line.shots,
    toppings: line.toppings,
    milk: line.milk,
    without: line.without,
    quantity: 1,
    note: "",
  };
}

/**
 * Another drink with the choices already made, as far as the new drink allows them; the rest go back to
 * the new drink's own defaults.
 */
export function changeDrink(draft: Draft, drink: MenuDrink): Draft {
  const plain = plainDraft(drink);
  const keep = <Value>(allowed: readonly Value[], value: Value, otherwise: Value): Value =>
    allowed.includes(value) ? value : otherwise;
  return {
    ...plain,
    size: keep(drink.sizes, draft.size, plain.size),
    sugar: keep(drink.sugars, draft.sugar, plain.sugar),
    ice: keep(drink.ices, draft.ice, plain.ice),
    shots: Math.min(draft.shots, drink.shots),
    toppings: draft.toppings.filter(({ topping }) => drink.toppings.includes(topping)),
    milk: draft.milk !== null && drink.milks.includes(draft.milk) ? draft.milk : plain.milk,
    quantity: draft.quantity,
    note: draft.note,
  };
}

/** How much of a topping is in: none, half a portion or a whole one. */
export function portion(draft: Draft, topping: string): "none" | "half" | "whole" {
  const chosen = draft.toppings.find((one) => one.topping === topping);
  if (!chosen) return "none";
  return chosen.half ? "half" : "whole";
}

/** Sets a topping's portion; "none" takes it out. */
export function setPortion(draft: Draft, topping: string, size: "none" | "half" | "whole"): Draft {
  const others = draft.toppings.filter((one) => one.topping !== topping);
  if (size === "none") return { ...draft, toppings: others };
  const put = { topping, half: size === "half" };
  const present = draft.toppings.some((one) => one.topping === topping);
  return {
    ...draft,
    toppings: present
      ? draft.toppings.map((one) => (one.topping === topping ? put : one))
      : [...draft.toppings, put],
  };
}

/** Leaves an ingredient out, or takes it in again. */
export function toggleWithout(draft: Draft, ingredient: string): Draft {
  const without = draft.without.includes(ingredient)
    ? draft.without.filter((one) => one !== ingredient)
    : [...draft.without, ingredient];
  return { ...draft, without };
}

/** The line as the service takes it. */
export function lineOf(draft: Draft): LineIn {
  return {
    drink: draft.drink,
    size: draft.size,
    sugar: draft.sugar,
    ice: draft.ice,
    shots: draft.shots,
    toppings: draft.toppings.map(({ topping, half }) => ({ topping, half: half ?? false })),
    milk: draft.milk,
    without: [...draft.without],
  };
}

/** The line with its quantity and note, for ringing in. */
export function drinkOf(draft: Draft): DrinkIn {
  return { line: lineOf(draft), quantity: draft.quantity, note: draft.note.trim() };
}

/** The menu's entry of a draft; undefined when a newer book no longer has it. */
export function menuDrink(menu: Menu, draft: Draft): MenuDrink | undefined {
  return menu.drinks.find((drink) => drink.id === draft.drink);
}
