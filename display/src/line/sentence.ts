/** The line being rung in as one sentence, whose words are the choices. Pure. */

import type { Menu, MenuDrink } from "../wire.gen";
import { capital, inSentence, listed, numberWord } from "../words/words";
import { type Draft, HOT, menuDrink, type Slot } from "./draft";
import { ownMilk } from "./stock";

/** A piece of the sentence: plain text, or a word that opens the choices of its slot. */
export interface Piece {
  readonly text: string;
  readonly slot?: Slot;
  /** True where the word only says that nothing was chosen: it is drawn lighter. */
  readonly open?: boolean;
}

const nameIn = (list: readonly { id: string; name: string }[], id: string): string =>
  list.find((one) => one.id === id)?.name ?? id;

/** A level's name with what it is a level of: "less" is "less ice"; "less ice" stays. */
export function levelWords(name: string, of: string): string {
  const word = inSentence(name);
  return word.toLowerCase().includes(of) ? word : `${word} ${of}`;
}

/** "oat milk" for "Oat milk" and for "Oat"; of a drink as its recipe has it, "its own whole milk". */
function milkWords(menu: Menu, drink: MenuDrink, draft: Draft): string {
  if (draft.milk !== null) return levelWords(nameIn(menu.milks, draft.milk), "milk");
  const own = ownMilk(menu, drink);
  return own ? `its own ${levelWords(own.name, "milk")}` : "its own milk";
}

function toppingWords(menu: Menu, draft: Draft): string {
  return listed(
    draft.toppings.map(({ topping, half }) => {
      const name = inSentence(nameIn(menu.toppings, topping));
      return half ? `½ ${name}` : name;
    }),
  );
}

function shotWords(shots: number): string {
  return `${numberWord(shots)} extra ${shots === 1 ? "shot" : "shots"}`;
}

function iceAndSugar(menu: Menu, drink: MenuDrink, draft: Draft): Piece[] {
  const sugar = menu.sugars.find((level) => level.percent === draft.sugar)?.name ?? `${draft.sugar} %`;
  const pieces: Piece[] = [];
  if (drink.ices.length > 0) {
    const word = draft.ice === HOT ? HOT : levelWords(nameIn(menu.ices, draft.ice), "ice");
    pieces.push({ text: draft.ice === HOT ? ", served " : " with " }, { text: word, slot: "ice" });
    if (drink.sugars.length > 0) pieces.push({ text: draft.ice === HOT ? " with " : " and " });
  } else if (drink.sugars.length > 0) {
    pieces.push({ text: " with " });
  }
  if (drink.sugars.length > 0) pieces.push({ text: levelWords(sugar, "sugar"), slot: "sugar" });
  return pieces;
}

/** The optional parts, each after a comma; what is not chosen is said as an open word. */
function extras(menu: Menu, drink: MenuDrink, draft: Draft): Piece[] {
  const pieces: Piece[] = [];
  const add = (slot: Slot, text: string, open: boolean): void => {
    pieces.push({ text: ", " }, { text, slot, open });
  };
  if (drink.milks.length > 0)
    add("milk", milkWords(menu, drink, draft), draft.milk === (drink.default.milk ?? null));
  if (drink.toppings.length > 0) {
    const none = draft.toppings.length === 0;
    add("toppings", none ? "no topping" : toppingWords(menu, draft), none);
  }
  if (drink.shots > 0) add("shots", shotWords(draft.shots), draft.shots === 0);
  if (drink.without.length > 0) {
    const left = draft.without.map((id) => inSentence(nameIn(drink.without, id)));
    add("without", left.length > 0 ? `without ${listed(left)}` : "nothing left out", left.length === 0);
  }
  add(
    "note",
    draft.note.trim() === "" ? "no note" : `noted: “${draft.note.trim()}”`,
    draft.note.trim() === "",
  );
  return pieces;
}

/**
 * The sentence of a draft, or nothing when the menu no longer has its drink. Of a cup that is rung in there is one,
 * so how many is no choice then.
 */
export function sentence(menu: Menu, draft: Draft, oneCup = false): Piece[] {
  const drink = menuDrink(menu, draft);
  if (!drink) return [];
  return [
    oneCup ? { text: "One" } : { text: capital(numberWord(draft.quantity)), slot: "quantity" },
    { text: " " },
    { text: inSentence(nameIn(menu.sizes, draft.size)), slot: "size" },
    { text: " " },
    { text: drink.name, slot: "drink" },
    ...iceAndSugar(menu, drink, draft),
    ...extras(menu, drink, draft),
    { text: "." },
  ];
}

/** The sentence as plain text, for people who hear it. */
export function spoken(pieces: readonly Piece[]): string {
  return pieces.map((piece) => piece.text).join("");
}
