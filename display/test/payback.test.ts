import { describe, expect, it } from "vitest";
import { backWords, differenceWords, payBack } from "../src/register/rungin/payback";
import type { TaxRule } from "../src/wire.gen";
import { moneyWriter } from "../src/words/money";
import { totalsOf } from "../src/words/tax";

const write = moneyWriter("CAD", 2);
const ON_TOP: TaxRule = { name: "GST", percent: "5", included: false, rounded: "order" };

describe("what is to be settled", () => {
  it("has its tax: of 4.92 for 1.83 + 2.86 and 5 % (Canada, Economic Action Plan 2012), 3.00 once 1.83 is left", () => {
    const gross = totalsOf([183, 286], ON_TOP).gross;
    const due = totalsOf([183, 0], ON_TOP).gross;
    // 1.83 and 5 % is 1.9215, charged as 1.92.
    expect([gross, due, payBack({ gross, due })]).toEqual([492, 192, 300]);
    expect(backWords({ gross, due }, write)).toMatch(/3\.00 to be given back$/);
  });

  it("is to be paid where a cup costs more by now, and nothing where it costs the same", () => {
    expect(backWords({ gross: 900, due: 970 }, write)).toMatch(/0\.70 to be paid$/);
    expect(differenceWords(0, write)).toBe("the same price");
    expect(differenceWords(-50, write)).toMatch(/0\.50 to be given back$/);
  });

  it("is all of a void order, and nothing of one that stands", () => {
    expect(payBack({ gross: 492, due: 0 })).toBe(492);
    expect(backWords({ gross: 492, due: 492 }, write)).toBe("–");
  });
});
