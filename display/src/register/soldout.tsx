/** What has run out: a switch for each drink, topping, milk and ingredient. */

import { signal } from "@preact/signals";
import type { JSX } from "preact";
import { menu, perform, queue } from "../link/shop";
import type { Menu } from "../wire.gen";

interface Item {
  readonly id: string;
  readonly name: string;
}

/** Everything that can be switched, by heading. An item under two headings stands under the first. */
export function items(held: Menu): readonly { readonly heading: string; readonly items: readonly Item[] }[] {
  const said = new Set<string>();
  const fresh = (list: readonly Item[]): Item[] => list.filter(({ id }) => !said.has(id) && said.add(id));
  return [
    { heading: "Drinks", items: fresh(held.drinks) },
    { heading: "Toppings", items: fresh(held.toppings) },
    { heading: "Milks", items: fresh(held.milks) },
    { heading: "Ingredients", items: fresh(held.ingredients) },
  ];
}

const sent = signal<ReadonlySet<string>>(new Set());

async function flip(item: Item, out: boolean): Promise<void> {
  if (sent.value.has(item.id)) return;
  sent.value = new Set([...sent.value, item.id]);
  await perform(
    "/api/sold-out",
    { item: item.id, sold_out: out },
    `${item.name}: ${out ? "sold out" : "back on"}`,
  );
  sent.value = new Set([...sent.value].filter((one) => one !== item.id));
}

function Switch({ item, out }: { item: Item; out: boolean }): JSX.Element {
  return (
    <button type="button" class={`switch${out ? " switch-out" : ""}`} onClick={() => void flip(item, !out)}>
      <span>{item.name}</span> <em>{out ? "sold out" : "in stock"}</em>
    </button>
  );
}

export function SoldOutList(): JSX.Element {
  const soldOut = new Set(queue.value?.soldOut ?? []);
  const held = menu.value;
  return (
    <main class="list-page">
      <h1>Sold out</h1>
      <p>What has run out is not offered until it is switched back. Touch to switch.</p>
      {held &&
        items(held).map((group) => (
          <section key={group.heading} aria-label={group.heading}>
            <h2>{group.heading}</h2>
            <div class="switches">
              {group.items.map((item) => (
                <Switch key={item.id} item={item} out={soldOut.has(item.id)} />
              ))}
            </div>
          </section>
        ))}
    </main>
  );
}
