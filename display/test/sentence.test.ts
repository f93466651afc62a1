import { describe, expect, it } from "vitest";
import { options, toppings } from "../src/line/choices";
import { changeDrink, type Draft, lineOf, plainDraft, setPortion, toggleWithout } from "../src/line/draft";
import { levelWords, sentence, spoken } from "../src/line/sentence";
import { slotOf } from "../src/register/drink/quoting";
import { menu, menuDrink } from "./make";

const held = menu();
const plain = plainDraft(menuDrink());
const said = (draft: Draft): string => spoken(sentence(held, draft));

describe("the sentence", () => {
  it("says a bent drink as one would say it", () => {
    const draft: Draft = {
      ...plain,
      size: "large",
      ice: "less",
      sugar: 50,
      milk: "oat",
      toppings: [
        { topping: "pearls", half: false },
        { topping: "jelly", half: true },
      ],
      shots: 1,
      without: ["creamer"],
      note: " extra napkins ",
    };
    expect(said(draft)).toBe(
      "One large Roasted Oolong Milk Tea with less ice and half sugar, oat milk, pearls and ½ grass jelly, " +
        "one extra shot, without creamer, noted: “extra napkins”.",
    );
  });

  it("offers what was not chosen as an open word", () => {
    expect(said(plain)).toBe(
      "One small Roasted Oolong Milk Tea with regular ice and full sugar, its own milk, no topping, " +
        "no extra shots, nothing left out, no note.",
    );
    const open = sentence(held, plain).filter((piece) => piece.open);
    expect(open.map((piece) => piece.slot)).toEqual(["milk", "toppings", "shots", "without", "note"]);
  });

  it("serves hot, and counts", () => {
    expect(said({ ...plain, ice: "hot", quantity: 3 })).toContain(
      "Three small Roasted Oolong Milk Tea, served hot with full sugar,",
    );
  });

  it("leaves out what the drink does not allow", () => {
    const bare = menuDrink({ milks: [], toppings: [], shots: 0, without: [], ices: [], sugars: [] });
    expect(spoken(sentence(menu([bare]), plainDraft(bare)))).toBe(
      "One small Roasted Oolong Milk Tea, no note.",
    );
  });

  it("of a cup that is rung in leaves no choice of how many", () => {
    const pieces = sentence(held, plain, true);
    expect(pieces.some((piece) => piece.slot === "quantity")).toBe(false);
    expect(spoken(pieces)).toBe(said(plain));
  });

  it("is empty when a newer book no longer has the drink", () => {
    expect(sentence(held, { ...plain, drink: "gone" })).toEqual([]);
  });

  it("adds what a level is a level of only where the name does not say it", () => {
    expect([levelWords("Less", "ice"), levelWords("less ice", "ice"), levelWords("Oat", "milk")]).toEqual([
      "less ice",
      "less ice",
      "oat milk",
    ]);
  });
});

describe("choices", () => {
  const choosing = (draft: Draft, soldOut: string[] = []) => ({
    menu: held,
    drink: menuDrink(),
    draft,
    soldOut: new Set(soldOut),
    write: (minor: number) => `${minor}`,
  });

  it("offer only what the drink allows, and mark what is chosen", () => {
    const sizes = options("size", choosing(plain));
    expect(sizes.map((one) => [one.id, one.chosen, one.detail])).toEqual([
      ["small", true, "350 ml · 400"],
      ["large", false, "600 ml · 550"],
    ]);
    expect(options("shots", choosing(plain)).map((one) => one.detail)).toEqual(["", "+80", "+160"]);
  });

  it("grey what is sold out, with the words", () => {
    expect(options("milk", choosing(plain, ["oat"])).map((one) => one.refused)).toEqual([
      null,
      null,
      "sold out",
    ]);
    expect(toppings(choosing(plain, ["pearls"])).map((one) => one.refused)).toEqual(["sold out", null]);
  });

  it("offer no half of a topping that is served whole only", () => {
    const whole = { ...held, toppings: held.toppings.map((one) => ({ ...one, half_price: null })) };
    expect(toppings({ ...choosing(plain), menu: whole }).map((one) => one.half)).toEqual([null, null]);
    expect(toppings(choosing(plain)).map((one) => one.half?.detail)).toEqual(["+30", "+25"]);
  });

  it("refuse another topping when there are as many as may be, but let one be taken out", () => {
    const full = { ...plain, toppings: [{ topping: "jelly", half: false }] };
    const offered = toppings({ ...choosing(full), menu: { ...held, toppings_max: 1 } });
    expect(offered.map((one) => one.refused)).toEqual(["1 at most", null]);
    expect(offered[1]?.whole.next.toppings).toEqual([]);
    expect(offered[1]?.half?.next.toppings).toEqual([{ topping: "jelly", half: true }]);
  });
});

describe("a draft", () => {
  it("keeps its choices when the drink is changed, as far as the new one allows", () => {
    const draft = setPortion(
      { ...plain, sugar: 50, ice: "hot", shots: 2, milk: "oat", quantity: 2 },
      "pearls",
      "half",
    );
    const cold = menuDrink({ id: "lemon", ices: ["regular"], shots: 1, milks: [], toppings: [] });
    expect(changeDrink(draft, cold)).toMatchObject({
      drink: "lemon",
      sugar: 50,
      ice: "regular",
      shots: 1,
      milk: null,
      toppings: [],
      quantity: 2,
    });
  });

  it("leaves out and takes in again", () => {
    const once = toggleWithout(plain, "creamer");
    expect(once.without).toEqual(["creamer"]);
    expect(toggleWithout(once, "creamer").without).toEqual([]);
  });

  it("becomes a line with every choice named", () => {
    expect(lineOf(setPortion(plain, "pearls", "whole"))).toEqual({
      drink: "oolong",
      size: "small",
      sugar: 100,
      ice: "regular",
      shots: 0,
      toppings: [{ topping: "pearls", half: false }],
      milk: null,
      without: [],
    });
  });
});

describe("a refusal", () => {
  it.each([
    ["toppings", "toppings"],
    ["line.ice", "ice"],
    ["drinks[0].line.milk", "milk"],
    ["body", null],
  ])("about %s belongs to the word %s", (field, slot) => {
    const problem = {
      type: "",
      title: "",
      status: 422,
      detail: "",
      errors: [{ field, value: "", accepted: "" }],
    };
    expect(slotOf(problem)).toBe(slot);
  });
});
