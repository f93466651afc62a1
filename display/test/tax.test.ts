import { describe, expect, it } from "vitest";
import type { TaxRule } from "../src/wire.gen";
import { taxOf, totalsOf } from "../src/words/tax";
import { seeded } from "./make";

const rule = (percent: string, included: boolean, rounded: TaxRule["rounded"] = "order"): TaxRule => ({
  name: "tax",
  percent,
  included,
  rounded,
});

describe("what an order comes to", () => {
  it("with 5 % on top of 1.83 and 2.86 is 4.92 (4.9245; Canada, Economic Action Plan 2012)", () => {
    expect(totalsOf([183, 286], rule("5", false))).toEqual({ net: 469, tax: 23, gross: 492 });
  });

  it("with 10 % inside 5.20 and 6.30 holds 1.04 by line, 1.05 by order (GST Act 1999, Australia, s 9-90)", () => {
    expect(totalsOf([520, 630], rule("10", true, "line"))).toEqual({ net: 1046, tax: 104, gross: 1150 });
    expect(totalsOf([520, 630], rule("10", true))).toEqual({ net: 1045, tax: 105, gross: 1150 });
  });

  it("by the two rate groups of EN 16931 example 1 (CEN/TC 434) is 250.33, 20.73 of it VAT", () => {
    const groups = [totalsOf([18323], rule("6", false)), totalsOf([4637], rule("21", false))];
    expect(groups.map((group) => group.tax)).toEqual([1099, 974]);
    expect(groups.reduce((sum, group) => sum + group.gross, 0)).toBe(25033);
  });

  it("takes half a penny up: 4.95 with 20 % inside holds 0.825 (HMRC, VAT Notice 700, 17.5)", () => {
    expect(taxOf(495, rule("20", true))).toBe(83);
  });

  it("is exact where binary fractions are not", () => {
    // 8.875 % of 4.00 is 0.355, 0.5 % of 1.00 is 0.005.
    expect(taxOf(400, rule("8.875", false))).toBe(36);
    expect(taxOf(100, rule("0.5", false))).toBe(1);
    expect(taxOf(-100, rule("0.5", false))).toBe(-1);
  });

  it("always has net and tax make gross, and tax within half a unit for each rounding", () => {
    const random = seeded(4);
    for (let round = 0; round < 500; round += 1) {
      const amounts = Array.from({ length: Math.floor(random() * 8) }, () => Math.floor(random() * 5000));
      const tenths = Math.floor(random() * 400);
      for (const included of [true, false]) {
        for (const rounded of ["order", "line"] as const) {
          const found = totalsOf(amounts, rule(String(tenths / 10), included, rounded));
          const listed = amounts.reduce((sum, amount) => sum + amount, 0);
          expect(found.net + found.tax).toBe(found.gross);
          expect(included ? found.gross : found.net).toBe(listed);
          const rate = tenths / 1000;
          const exact = listed * (included ? rate / (1 + rate) : rate);
          const roundings = rounded === "order" ? 1 : amounts.length;
          expect(Math.abs(found.tax - exact)).toBeLessThanOrEqual(roundings / 2 + 1e-6);
        }
      }
    }
  });

  it("refuses a percentage that it cannot read, rather than leave the tax out", () => {
    expect(() => taxOf(100, rule("1e1", false))).toThrow('tax.percent: "1e1"');
  });
});
