/** Families and their drinks; what is sold out stays in its place, greyed, with the words. */
import type { JSX } from "preact";
import { menu, queue } from "../shop";
import type { MenuDrink } from "../wire.gen";
import { changeDrink, plainDraft } from "./draft";
import { receipt } from "./order";
import { draft } from "./quoting";
import { changing, editing, open } from "./state";

/** Why a drink cannot be had now: itself or something it cannot be made without has run out. */
export function soldOutWhy(drink: MenuDrink, soldOut: readonly string[]): string | null {
  if (soldOut.includes(drink.id)) return "sold out";
  return drink.uses.some((item) => soldOut.includes(item)) ? "sold out" : null;
}

function choose(drink: MenuDrink): void {
  // The next customer's drink is chosen: the last one's receipt has been read.
  receipt.value = undefined;
  const now = draft.value;
  if (changing.value && now) {
    draft.value = changeDrink(now, drink);
  } else {
    draft.value = plainDraft(drink);
    editing.value = null;
  }
  changing.value = false;
  open.value = "size";
}

function DrinkButton({ drink }: { drink: MenuDrink }): JSX.Element {
  const why = soldOutWhy(drink, queue.value?.soldOut ?? []);
  const chosen = draft.value?.drink === drink.id;
  return (
    <button
      type="button"
      class={`drink${chosen ? " chosen" : ""}`}
      aria-pressed={chosen}
      aria-disabled={why !== null}
      title={drink.about}
      onClick={() => {
        if (why === null) choose(drink);
      }}
    >
      <span>{drink.name}</span>
      {why && <em>{why}</em>}
    </button>
  );
}

export function DrinkList(): JSX.Element {
  const held = menu.value;
  return (
    <nav class="drinks" aria-label="Drinks">
      {held?.families.map((family) => {
        const drinks = held.drinks.filter((drink) => drink.family === family.id);
        if (drinks.length === 0) return null;
        return (
          <section key={family.id} aria-label={family.name}>
            <h2>{family.name}</h2>
            <div class="drinks-family">
              {drinks.map((drink) => (
                <DrinkButton key={drink.id} drink={drink} />
              ))}
            </div>
          </section>
        );
      })}
    </nav>
  );
}
