import { describe, expect, it } from "vitest";
import { answered, asked, begin, complete, right, scoreWords, waits } from "../src/learn/round";
import { plainDraft } from "../src/line/draft";
import { scaleEnd } from "../src/owner/bench/outcome/movers";
import { drinkSentence } from "../src/owner/bench/trying";
import { brandIn, EMPTY_FORM, priceUnit, weightsOf } from "../src/owner/brand/brandform";
import type { Checked, TrainingDrink } from "../src/wire.gen";
import { menu, menuDrink } from "./make";

describe("the sentence of the bench", () => {
  it("leaves out how many and the note, which belong to an order", () => {
    const held = menu();
    const drink = held.drinks[0] ?? menuDrink();
    const pieces = drinkSentence(held, plainDraft(drink));
    const said = pieces.map((piece) => piece.text).join("");
    expect(pieces.some((piece) => piece.slot === "note" || piece.slot === "quantity")).toBe(false);
    expect(said).not.toContain("note");
    expect(said).toMatch(/^One .*[^, ]\.$/);
  });
});

describe("a change of brand", () => {
  it("reads one weight or several, with a comma or a point", () => {
    expect(weightsOf("9.4")).toEqual([9.4]);
    expect(weightsOf("9,4  9.2;9.5")).toEqual([9.4, 9.2, 9.5]);
    expect(weightsOf("")).toEqual([]);
    expect(weightsOf("9.4 abc")).toContain("abc");
    expect(weightsOf("0")).toContain("not a weight");
  });

  it("sends only what was filled in, and says which figure is none", () => {
    const form = {
      ...EMPTY_FORM,
      ingredient: "creamer",
      tool: "scoop",
      weights: "9.1",
      label: { sugars_g: "9" },
    };
    expect(brandIn(form)).toEqual({
      ingredient: "creamer",
      tool: "scoop",
      unit_g: 9.1,
      readings_g: [],
      label: { sugars_g: 9 },
      keep_mass: false,
    });
    expect(brandIn({ ...form, weights: "" })).not.toHaveProperty("tool");
    expect(brandIn({ ...form, label: { fat_g: "much" } })).toContain("Fat");
    expect(brandIn({ ...form, label: { price: "12,50" } }, priceUnit("9.50 EUR/kg"))).toMatchObject({
      label: { price: "12,50 EUR/kg" },
    });
    expect(brandIn({ ...form, label: { price: "3.20 EUR/l" } }, "EUR/kg")).toMatchObject({
      label: { price: "3.20 EUR/l" },
    });
    expect(priceUnit(undefined)).toBe("");
  });

  it("draws the movers on a scale that ends past the longest bar", () => {
    const mover = (worst_pct: number) => ({
      drink: "a",
      name: "A",
      worst_pct,
      worst_label: "",
      components: [],
      doses: [],
      refused: [],
      allergens: [],
    });
    expect([[], [mover(3)], [mover(20)], [mover(36.6)], [mover(140)]].map(scaleEnd)).toEqual([
      2, 5, 20, 50, 200,
    ]);
  });
});

describe("a round of training", () => {
  const drink: TrainingDrink = {
    seed: 1,
    book: "v1",
    line: menuDrink().default,
    title: "",
    words: [],
    about: "",
    stations: [],
    scores: false,
    steps: [1, 2].map((number) => ({
      number,
      action: "scoop",
      label: "Creamer",
      asks: "amount" as const,
      kind: "scoop",
      unit: "scoops",
      choices: [{ count: 1, text: "1 scoop" }],
    })),
  };
  const told = (good: boolean): Checked => ({
    right: good,
    station_right: good,
    count_right: good,
    station: "",
    count: 1,
    text: "",
    why: "",
    score: null,
  });

  it("asks each step once, in order, and counts what was right", () => {
    let round = begin(drink);
    expect(asked(round)?.number).toBe(1);
    round = answered(round, { station: "tea", count: 1, checked: told(true) });
    expect(asked(round)?.number).toBe(2);
    round = answered(round, { station: "tea", count: 1, checked: told(false) });
    expect(asked(round)).toBeUndefined();
    expect(right(round)).toBe(1);
    expect(scoreWords(round)).toBe("1 of 2 steps right.");
  });

  it("waits after a wrong answer until it has been read, and after a right one not", () => {
    const good = answered(begin(drink), { station: "tea", count: 1, checked: told(true) });
    expect([waits(begin(drink), 0), waits(good, 0)]).toEqual([false, false]);
    const wrong = answered(good, { station: "tea", count: 1, checked: told(false) });
    expect([waits(wrong, 0), waits(wrong, 2)]).toEqual([true, false]);
  });

  it("wants a station and, where one is asked, an amount", () => {
    const step = drink.steps[0];
    if (!step) throw new Error("the drink has steps");
    expect(complete(step, "", 1)).toBe(false);
    expect(complete(step, "tea", null)).toBe(false);
    expect(complete(step, "tea", 1)).toBe(true);
    expect(complete({ ...step, asks: "station", choices: [] }, "tea", null)).toBe(true);
  });
});
