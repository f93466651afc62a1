import { describe, expect, it } from "vitest";
import {
  doseRows,
  type FigureRow,
  figureGroups,
  fixed,
  signed,
  stepRows,
} from "../src/owner/bench/outcome/diff";
import type { Amount, Balance, Build, Outcome } from "../src/wire.gen";
import { build, step } from "./make";

const AMOUNT: Amount = {
  tool: "scoop",
  kind: "scoop",
  unit: "scoops",
  count: 2,
  volume_ml: 40,
  mass_g: 16,
  wanted_ml: 40,
  error_pct: 0,
};

const creamer = (count: number) =>
  step(1, {
    ingredient: "creamer",
    text: `Scoop ${count} scoops`,
    short: "Creamer",
    amount: { ...AMOUNT, count },
  });

const BALANCE: Balance = {
  temperature_c: 4,
  liquid_g: 400,
  liquid_ml: 400,
  melted_g: 60,
  ice_left_g: 20,
  sugars_g: 20,
  added_sugars_g: 15,
  brix: 5,
  caffeine_mg: 60,
  energy_kj: 800,
  energy_kcal: 190,
  ice_g: 80,
  added_brix: 3.75,
  dry_g: 28,
  dry_pct: 7,
  tea_pct: 60,
  dilution_pct: 15,
  cost: 55,
  margin: 400,
};

const outcome = (of: Build | null, told: Partial<Outcome> = {}): Outcome => ({
  line: null,
  build: of,
  balance: of && BALANCE,
  energy_words: of ? "800 kJ / 190 kcal" : "",
  errors: [],
  money: of && { price: 500, net: 454.5, cost: 51, margin: 403.5, margin_pct: 88.8 },
  refusal: of ? null : "no",
  ...told,
});

/** The same drink, with figures of its own. */
const comesTo = (figures: Partial<Balance>): Outcome =>
  outcome(build("a"), { balance: { ...BALANCE, ...figures } });

const write = (minor: number): string => String(minor);

const rows = (before: Outcome, after: Outcome): FigureRow[] =>
  figureGroups(before, after, write, "EU").flatMap((group) => group.rows);

describe("before and after", () => {
  it("group the figures: the cup, the taste, nutrition, the money, how far off the recipe", () => {
    const groups = figureGroups(outcome(build("a")), outcome(build("a")), write, "EU");
    expect(groups.map((one) => [one.name, one.rows.map((row) => row.name)])).toEqual([
      ["In the cup", ["Filled", "Left to the seal line", "Served at", "Ice left"]],
      ["Taste", ["Sweetness", "of it added", "All but water", "Tea as brewed", "Melt and water"]],
      [
        "Nutrition",
        ["Sugars", "of these added", "Caffeine", "Energy, EU factors", "in kilocalories", "Contains"],
      ],
      ["Money", ["Price", "Ingredients cost", "Margin", "of the net price"]],
    ]);
  });

  it("tell no change by nothing where it is rounded away", () => {
    // 4.4 reads 4 and 4.6 reads 5; the 0.2 between them reads 0.
    const warm = (temperature_c: number): Outcome => comesTo({ temperature_c });
    const told = rows(warm(4.6), warm(4.4)).find((row) => row.name === "Served at");
    expect(told).toMatchObject({ before: "5 °C", after: "4 °C", turn: "less", change: "" });
  });

  it("tell how far each ingredient is off the recipe, with its sign", () => {
    const off = (error_pct: number): Outcome =>
      outcome(build("a"), {
        errors: [
          {
            ingredient: "tea",
            label: "Tea",
            wanted_g: 100,
            given_g: 100 + error_pct,
            error_pct,
            tolerance_pct: 5,
          },
        ],
      });
    expect(rows(off(0.01), off(-4.26)).at(-1)).toMatchObject({
      name: "Tea",
      before: "as written",
      after: "−4.3 %",
      turn: "less",
    });
    expect(signed(3.21)).toBe("+3.2 %");
    expect(signed(-0.01)).toBe("as written");
  });

  it("tell the change of energy in the label's own figures", () => {
    const with_ = (energy_words: string): Outcome => outcome(build("a"), { energy_words });
    const found = rows(with_("1222 kJ / 290 kcal"), with_("1401 kJ / 332 kcal"));
    expect(found.filter((row) => row.turn === "more")).toMatchObject([
      { name: "Energy, EU factors", before: "1222 kJ", after: "1401 kJ", change: "+179 kJ" },
      { name: "in kilocalories", before: "290 kcal", after: "332 kcal", change: "+42 kcal" },
    ]);
    const less = rows(with_("1401 kJ / 332 kcal"), with_("under 20 kJ / 5 kcal"));
    expect(less.filter((row) => row.turn !== "same")).toMatchObject([
      { after: "under 20 kJ", turn: "other", change: "" },
      { after: "5 kcal", turn: "less", change: "−327 kcal" },
    ]);
  });

  it("call a figure the same when it reads the same", () => {
    const other = comesTo({ brix: BALANCE.brix + 0.01, caffeine_mg: 75 });
    const found = rows(outcome(build("a")), other);
    expect(found.find((row) => row.name === "Sweetness")?.turn).toBe("same");
    const caffeine = found.find((row) => row.name === "Caffeine");
    expect(caffeine).toMatchObject({ before: "60 mg", after: "75 mg", turn: "more", change: "+15 mg" });
  });

  it("write less with a true minus sign", () => {
    expect(fixed(-0.04, 1)).toBe("0.0");
    expect(fixed(-4.26, 1)).toBe("−4.3");
    const row = rows(outcome(build("a")), comesTo({ temperature_c: -1 })).find(
      (each) => each.name === "Served at",
    );
    expect(row).toMatchObject({ after: "−1 °C", turn: "less", change: "−5 °C" });
  });

  it("tell an allergen that comes in, and figures that are gone with a refusal", () => {
    const one = build("a");
    const nuts = { ...one, allergens: ["milk", "almonds"] };
    const contains = rows(outcome(one), outcome(nuts)).find((row) => row.name === "Contains");
    expect(contains).toMatchObject({ turn: "other", after: "milk and almonds" });
    const gone = rows(outcome(one), outcome(null));
    expect(gone[0]).toMatchObject({ turn: "gone", after: "–" });
  });

  it("never call a drink free of allergens", () => {
    const contains = rows(outcome(build("a")), outcome(build("a"))).find((row) => row.name === "Contains");
    expect(contains?.after).toContain("ask us");
  });
});

describe("steps before and after", () => {
  it("match steps by what they do, and tell more, less, new and gone", () => {
    const stir = step(2, { action: "stir", short: "Stir", text: "Stir" });
    const pour = step(2, { action: "pour", ingredient: "tea", text: "Pour tea", amount: AMOUNT });
    const rows = stepRows(build("a", [creamer(2), stir]), build("b", [creamer(2.5), pour]));
    expect(rows.map((row) => [row.step.text, row.turn, row.was])).toEqual([
      ["Scoop 2.5 scoops", "more", "2 scoops"],
      ["Pour tea", "new", ""],
      ["Stir", "gone", ""],
    ]);
  });

  it("mark as few steps as can be said to have moved", () => {
    const named = (id: string) => step(1, { action: "pour", ingredient: id, text: id });
    const [a, b, c, d] = ["a", "b", "c", "d"].map(named);
    if (!a || !b || !c || !d) throw new Error("there are four");
    const moved = stepRows(build("x", [a, b, c, d]), build("y", [d, a, b, c]));
    expect(moved.map((row) => [row.step.text, row.turn])).toEqual([
      ["d", "moved"],
      ["a", "same"],
      ["b", "same"],
      ["c", "same"],
    ]);
    const swapped = stepRows(build("x", [a, b, c]), build("y", [a, c, b]));
    expect(swapped.filter((row) => row.turn === "moved")).toHaveLength(1);
  });

  it("mark nothing where there is nothing to compare with", () => {
    expect(stepRows(null, build("b", [creamer(2)])).map((row) => row.turn)).toEqual(["same"]);
  });

  it("put each ingredient in a row across the sizes, once", () => {
    const rows = doseRows([build("a", [creamer(1)]), null, build("c", [creamer(3), creamer(1)])]);
    expect(rows).toHaveLength(1);
    expect(rows[0]?.cells.map((cell) => cell.length)).toEqual([1, 0, 2]);
  });
});
