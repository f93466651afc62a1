/** Families and their drinks; what is sold out stays in its place, greyed, with the words. */
import type { JSX } from "preact";
import { menu } from "../shop";
import type { Menu, MenuDrink } from "../wire.gen";
import { changeDrink, plainDraft } from "./draft";
import { receipt } from "./order";
import { draft } from "./quoting";
import { changing, editing, open, short, soldOut } from "./state";
import { soldOutWhy } from "./stock";

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
  // Where the drink's own milk is out, another one is the first thing to choose.
  open.value = short.value[0]?.slot ?? "size";
}

function DrinkButton({ menu, drink }: { menu: Menu; drink: MenuDrink }): JSX.Element {
  const why = soldOutWhy(menu, drink, soldOut.value);
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
                <DrinkButton key={drink.id} menu={held} drink={drink} />
              ))}
            </div>
          </section>
        );
      })}
    </nav>
  );
}
