import { describe, expect, it } from "vitest";
import { dilution, doseRows, figureRows, fixed, stepRows } from "../src/owner/diff";
import type { Amount, Build, Outcome } from "../src/wire.gen";
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

const outcome = (of: Build | null): Outcome => ({
  line: null,
  build: of,
  money: of && { price: 500, net: 454.5, cost: 51, margin: 403.5, margin_pct: 88.8 },
  refusal: of ? null : "no",
});

const write = (minor: number): string => String(minor);

describe("before and after", () => {
  it("tell the share of melted ice in the liquid", () => {
    const one = build("a");
    // 60 g melted of 400 g liquid.
    expect(dilution(one)).toBeCloseTo(15, 12);
    expect(dilution({ ...one, balance: { ...one.balance, liquid_g: 0 } })).toBe(0);
  });

  it("call a figure the same when it reads the same", () => {
    const one = build("a");
    const other = { ...one, balance: { ...one.balance, brix: one.balance.brix + 0.01, caffeine_mg: 75 } };
    const rows = figureRows(outcome(one), outcome(other), write);
    expect(rows.find((row) => row.name === "Sweetness")?.turn).toBe("same");
    const caffeine = rows.find((row) => row.name === "Caffeine");
    expect(caffeine).toMatchObject({ before: "60 mg", after: "75 mg", turn: "more", change: "+15 mg" });
  });

  it("write less with a true minus sign", () => {
    expect(fixed(-0.04, 1)).toBe("0.0");
    expect(fixed(-4.26, 1)).toBe("−4.3");
    const one = build("a");
    const colder = { ...one, balance: { ...one.balance, temperature_c: -1 } };
    const row = figureRows(outcome(one), outcome(colder), write).find((each) => each.name === "Served at");
    expect(row).toMatchObject({ after: "−1 °C", turn: "less", change: "−5 °C" });
  });

  it("tell an allergen that comes in, and figures that are gone with a refusal", () => {
    const one = build("a");
    const nuts = { ...one, allergens: ["milk", "almonds"] };
    const contains = figureRows(outcome(one), outcome(nuts), write).find((row) => row.name === "Contains");
    expect(contains).toMatchObject({ turn: "other", after: "milk and almonds" });
    const gone = figureRows(outcome(one), outcome(null), write);
    expect(gone[0]).toMatchObject({ turn: "gone", after: "–" });
  });

  it("never call a drink free of allergens", () => {
    const contains = figureRows(outcome(build("a")), outcome(build("a")), write).at(-1);
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

  it("mark nothing where there is nothing to compare with", () => {
    expect(stepRows(null, build("b", [creamer(2)])).map((row) => row.turn)).toEqual(["same"]);
  });

  it("put each ingredient in a row across the sizes, once", () => {
    const rows = doseRows([build("a", [creamer(1)]), null, build("c", [creamer(3), creamer(1)])]);
    expect(rows).toHaveLength(1);
    expect(rows[0]?.cells.map((cell) => cell.length)).toEqual([1, 0, 2]);
  });
});
