/** Families and their drinks; what is sold out stays in its place, greyed, with the words. */
import type { JSX } from "preact";
import { soldOutWhy } from "../line/stock";
import { menu } from "../link/shop";
import type { Menu, MenuDrink } from "../wire.gen";
import { choose, lastChosen } from "./drink/opendrink";
import { draft } from "./drink/quoting";
import { soldOut } from "./drink/state";
import { useWished } from "./focus";

function DrinkButton({ menu, drink }: { menu: Menu; drink: MenuDrink }): JSX.Element {
  const why = soldOutWhy(menu, drink, soldOut.value);
  const chosen = draft.value?.drink === drink.id;
  return (
    <button
      type="button"
      class={`drink${chosen ? " chosen" : ""}`}
      aria-pressed={chosen}
      aria-disabled={why !== null}
      data-last={lastChosen.value === drink.id}
      title={drink.about}
      onClick={() => {
        if (why === null) choose(drink.id);
      }}
    >
      <span>{drink.name}</span>
      {why && <em>{why}</em>}
    </button>
  );
}

export function DrinkList(): JSX.Element {
  const held = menu.value;
  const here = useWished<HTMLElement>("drinks", true, ['.drink[data-last="true"]', ".drink"]);
  return (
    <nav class="drinks" aria-label="Drinks" ref={here}>
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
