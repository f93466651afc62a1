/** Small whole values for tests: builds, tickets, changes, a menu. Not shipped. */
import type {
  Build,
  Change,
  Line,
  Menu,
  MenuDrink,
  QueueDrink,
  Snapshot,
  Step,
  Ticket,
} from "../src/wire.gen";

const PLAIN: Line = {
  drink: "oolong",
  size: "small",
  sugar: 100,
  ice: "regular",
  shots: 0,
  toppings: [],
  milk: null,
  without: [],
};

export function step(number: number, given: Partial<Step> = {}): Step {
  return {
    number,
    station: "scoop",
    action: "scoop",
    text: `Step ${number}`,
    short: `Step ${number}`,
    ingredient: null,
    amount: null,
    duration: null,
    into: "",
    celsius: null,
    caution: null,
    ...given,
  };
}

export function build(id: string, steps: Step[] = [step(1)]): Build {
  return {
    id,
    book: "b1",
    line: { ...PLAIN, size: "large" },
    title: `Drink ${id}`,
    words: [],
    steps,
    fill: {
      layers: [{ what: "liquid", label: "tea", volume_ml: 400 }],
      filled_ml: 400,
      line_ml: 450,
      brim_ml: 500,
      head_ml: 50,
      vessel: "cup",
      vessel_ml: 400,
      vessel_limit_ml: 450,
    },
    facts: {
      temperature_c: 4,
      sugars_g: 20,
      added_sugars_g: 15,
      brix: 5,
      caffeine_mg: 60,
      energy_kj: 800,
      energy_kcal: 190,
    },
    allergens: [],
    cautions: [],
    notes: [],
    uses: [],
  };
}

export function drink(id: string, given: Partial<QueueDrink> = {}): QueueDrink {
  return {
    id,
    build: "a",
    note: "",
    state: "waiting",
    steps: [{ state: "todo", started_at: null, finished_at: null }],
    bumped_at: null,
    changed_at: null,
    remade_at: null,
    remade_why: "",
    ...given,
  };
}

export function ticket(id: number, given: Partial<Ticket> = {}): Ticket {
  return {
    id: String(id),
    number: id,
    name: "",
    day: "2026-11-25",
    rung_at: 1_000_000 + id,
    state: "waiting",
    ready_at: null,
    drinks: [drink(`${id}.1`)],
    gross: 500,
    due: 500,
    ...given,
  };
}

export function snapshot(position: number, tickets: Ticket[], builds: Build[] = [build("a")]): Snapshot {
  return {
    store: "s1",
    position,
    now: 2_000_000,
    book: "b1",
    tickets,
    builds: Object.fromEntries(builds.map((one) => [one.id, one])),
    handed: [],
    sold_out: [],
  };
}

export function change(after: number, position: number, given: Partial<Change> = {}): Change {
  return {
    store: "s1",
    after,
    position,
    now: 2_000_000,
    tickets: [],
    gone: [],
    struck: [],
    builds: {},
    handed: null,
    sold_out: null,
    book: null,
    ...given,
  };
}

export function menuDrink(given: Partial<MenuDrink> = {}): MenuDrink {
  return {
    id: "oolong",
    name: "Roasted Oolong Milk Tea",
    family: "milk",
    about: "",
    prices: { small: 400, large: 550 },
    sizes: ["small", "large"],
    sugars: [0, 50, 100],
    ices: ["less", "regular", "hot"],
    shots: 2,
    toppings: ["pearls", "jelly"],
    milks: ["whole", "oat"],
    without: [
      { id: "creamer", name: "creamer", price: 0, half_price: null, allergens: ["milk"], caution: null },
    ],
    default: PLAIN,
    uses: ["oolong_tea", "creamer"],
    ...given,
  };
}

const choice = (id: string, name: string, price = 0) => ({
  id,
  name,
  price,
  half_price: price > 0 ? price / 2 : null, // none where it costs nothing: a milk, or what has no half
  allergens: [],
  caution: null,
});

export function menu(drinks: MenuDrink[] = [menuDrink()]): Menu {
  return {
    book: "b1",
    shop: {
      name: "Tideglass Tea",
      town: "Port Ellery",
      currency: "EUR",
      minor_digits: 2,
      time_zone: "Europe/Lisbon",
    },
    floor: { soon_s: 300, late_s: 480, bump: "by hand", board_keeps_s: 600 },
    stations: [
      { id: "scoop", name: "Scoop" },
      { id: "shake", name: "Shake" },
    ],
    families: [{ id: "milk", name: "Milk teas" }],
    drinks,
    sizes: [
      { id: "small", name: "Small", line_ml: 350, brim_ml: 400 },
      { id: "large", name: "Large", line_ml: 600, brim_ml: 680 },
    ],
    sugars: [
      { percent: 0, name: "no sugar" },
      { percent: 50, name: "half sugar" },
      { percent: 100, name: "full sugar" },
    ],
    ices: [choice("less", "less ice"), choice("regular", "regular ice"), choice("hot", "hot")],
    toppings: [choice("pearls", "pearls", 60), choice("jelly", "grass jelly", 50)],
    toppings_max: 3,
    milks: [choice("whole", "whole milk"), choice("oat", "oat milk", 40)],
    ingredients: [],
    shot_price: 80,
    shot_item: "espresso",
    tax: { name: "VAT", percent: "10", included: true, rounded: "order" },
    faults: [],
  };
}

/** Random numbers that are the same each time (mulberry32), so that a failure can be seen again. */
export function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}
