/** What can be chosen for one word of the sentence, as buttons. Pure. */

import type { Choice, Menu, MenuDrink } from "../wire.gen";
import { extraPrice } from "../words/money";
import { capital, listed, numberWord } from "../words/words";
import { type Draft, HOT, portion, type Slot, setPortion, toggleWithout } from "./draft";
import { ownMilk, ownMilkOut } from "./stock";

/** One button: what it says, what the draft becomes, and why it cannot be had (if so). */
export interface Option {
  readonly id: string;
  readonly label: string;
  readonly detail: string;
  readonly chosen: boolean;
  readonly refused: string | null;
  readonly next: Draft;
}

/** What the pure choices need to know besides menu and draft. */
export interface Choosing {
  readonly menu: Menu;
  readonly drink: MenuDrink;
  readonly draft: Draft;
  readonly soldOut: ReadonlySet<string>;
  readonly write: (minor: number) => string;
}

const MOST_AT_ONCE = 12;

function option(
  id: string,
  label: string,
  chosen: boolean,
  next: Draft,
  detail = "",
  refused: string | null = null,
): Option {
  return { id, label: capital(label), detail, chosen, refused, next };
}

function details(choice: Choice | undefined, price: string): string {
  const allergens = choice?.allergens?.length ? `contains ${choice.allergens.join(", ")}` : "";
  return [price, allergens].filter((part) => part !== "").join(" · ");
}

function quantities({ draft }: Choosing): Option[] {
  return Array.from({ length: MOST_AT_ONCE }, (_, index) => index + 1).map((quantity) =>
    option(String(quantity), numberWord(quantity), draft.quantity === quantity, { ...draft, quantity }),
  );
}

function sizes({ menu, drink, draft, write }: Choosing): Option[] {
  return drink.sizes.map((size) => {
    const named = menu.sizes.find((one) => one.id === size);
    const price = drink.prices[size];
    const detail = [named ? `${Math.round(named.line_ml)} ml` : "", price === undefined ? "" : write(price)];
    return option(
      size,
      named?.name ?? size,
      draft.size === size,
      { ...draft, size },
      detail.filter((part) => part !== "").join(" · "),
    );
  });
}

function ices({ menu, drink, draft }: Choosing): Option[] {
  return drink.ices.map((ice) => {
    const name = menu.ices.find((one) => one.id === ice)?.name ?? ice;
    return option(ice, ice === HOT ? "hot" : name, draft.ice === ice, { ...draft, ice });
  });
}

function sugars({ menu, drink, draft }: Choosing): Option[] {
  return drink.sugars.map((sugar) => {
    const name = menu.sugars.find((level) => level.percent === sugar)?.name ?? `${sugar} %`;
    const said = name.includes("%") ? "" : `${sugar} %`;
    return option(String(sugar), name, draft.sugar === sugar, { ...draft, sugar }, said);
  });
}

function milks({ menu, drink, draft, soldOut, write }: Choosing): Option[] {
  const own = drink.default.milk ?? null;
  const out = ownMilkOut(menu, drink, soldOut);
  const mine = own === null ? ownMilk(menu, drink) : undefined;
  const asItComes = draft.milk === null || draft.milk === mine?.id;
  const name = mine?.name ?? "its own milk";
  const whose = mine ? "" : `${listed(out)} `;
  const why = out.length > 0 ? `${whose}sold out` : null;
  const said = mine ? details(mine, "its own") : "";
  const plain = own === null ? [option("", name, asItComes, { ...draft, milk: null }, said, why)] : [];
  const others = drink.milks.flatMap((milk) => {
    if (milk === mine?.id) return [];
    const choice = menu.milks.find((one) => one.id === milk);
    const detail = details(choice, extraPrice(write, choice?.price ?? 0));
    const refused = soldOut.has(milk) ? "sold out" : null;
    return option(milk, choice?.name ?? milk, draft.milk === milk, { ...draft, milk }, detail, refused);
  });
  return [...plain, ...others];
}

function shots({ menu, drink, draft, soldOut, write }: Choosing): Option[] {
  return Array.from({ length: drink.shots + 1 }, (_, count) => count).map((count) => {
    const label = `${numberWord(count)} extra ${count === 1 ? "shot" : "shots"}`;
    const detail = extraPrice(write, count * menu.shot_price);
    const refused = count > 0 && soldOut.has(menu.shot_item) ? "sold out" : null;
    return option(String(count), label, draft.shots === count, { ...draft, shots: count }, detail, refused);
  });
}

function without({ drink, draft }: Choosing): Option[] {
  return drink.without.map((choice) =>
    option(
      choice.id,
      `without ${choice.name.charAt(0).toLowerCase()}${choice.name.slice(1)}`,
      draft.without.includes(choice.id),
      toggleWithout(draft, choice.id),
    ),
  );
}

/** The buttons of a slot that is chosen from a plain list. Toppings have their own, see `toppings`. */
export function options(slot: Slot, choosing: Choosing): Option[] {
  switch (slot) {
    case "quantity":
      return quantities(choosing);
    case "size":
      return sizes(choosing);
    case "ice":
      return ices(choosing);
    case "sugar":
      return sugars(choosing);
    case "milk":
      return milks(choosing);
    case "shots":
      return shots(choosing);
    case "without":
      return without(choosing);
    default:
      return [];
  }
}

/** A topping with its two portions: touching a chosen one takes it out. */
export interface ToppingOption {
  readonly id: string;
  readonly name: string;
  readonly detail: string;
  readonly refused: string | null;
  readonly whole: Option;
  /** None where it is served whole only. */
  readonly half: Option | null;
}

/** The toppings that the drink allows, each whole or half. */
export function toppings({ menu, drink, draft, soldOut, write }: Choosing): ToppingOption[] {
  const full = draft.toppings.length >= menu.toppings_max;
  return drink.toppings.flatMap((id) => {
    const choice = menu.toppings.find((one) => one.id === id);
    if (!choice) return [];
    const now = portion(draft, id);
    let refused: string | null = null;
    if (soldOut.has(id)) refused = "sold out";
    else if (full && now === "none") refused = `${menu.toppings_max} at most`;
    const next = (size: "half" | "whole"): Draft => setPortion(draft, id, now === size ? "none" : size);
    return [
      {
        id,
        name: choice.name,
        detail: details(choice, ""),
        refused,
        whole: option(
          `${id}:whole`,
          "whole",
          now === "whole",
          next("whole"),
          extraPrice(write, choice.price ?? 0),
        ),
        half:
          choice.half_price === null
            ? null
            : option(
                `${id}:half`,
                "half",
                now === "half",
                next("half"),
                extraPrice(write, choice.half_price),
              ),
      },
    ];
  });
}
