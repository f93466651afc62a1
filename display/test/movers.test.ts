import { describe, expect, it } from "vitest";
import { changesTold, moverWords, signed } from "../src/owner/bench/outcome/movers";

const change = (label: string, change_pct: number) => ({ label, change_pct, title: "Small Tea" });

describe("what moves in a recipe", () => {
  it("is told with its sign, a real minus", () => {
    expect([signed(9.84), signed(-0.42)]).toEqual(["+9.8 %", "−0.4 %"]);
    expect([signed(-0.04), signed(0)], "nothing has no sign").toEqual(["0 %", "0 %"]);
  });

  it("leaves out what does not show in one decimal", () => {
    const told = changesTold([change("Taro", -9.8), change("Ice", 0.05), change("Water", 0.04)]);
    expect(told.map((one) => one.label)).toEqual(["Taro", "Ice"]);
  });

  it("says that an ingredient is put in or left out, since nothing has no per cent", () => {
    const dose = { size: "small", title: "Small Tea", label: "Lemon" };
    const mover = {
      drink: "tea",
      name: "Tea",
      worst_pct: 100,
      worst_label: "Lemon",
      components: [change("Lemon", 100)],
      refused: [],
      allergens: [],
    };
    expect(moverWords({ ...mover, doses: [{ ...dose, before: "none", after: "10 ml" }] })).toBe(
      "Lemon put in",
    );
    expect(moverWords({ ...mover, doses: [{ ...dose, before: "10 ml", after: "none" }] })).toBe(
      "Lemon left out",
    );
    expect(moverWords({ ...mover, doses: [{ ...dose, before: "5 ml", after: "10 ml" }] })).toBe(
      "Lemon 100.0 %",
    );
  });
});
