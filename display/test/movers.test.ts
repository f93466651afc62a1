import { describe, expect, it } from "vitest";
import { changesTold, signed } from "../src/owner/movers";

const change = (label: string, change_pct: number) => ({ label, change_pct, title: "Small Tea" });

describe("what moves in a recipe", () => {
  it("is told with its sign, a real minus", () => {
    expect([signed(9.84), signed(-0.42)]).toEqual(["+9.8 %", "−0.4 %"]);
  });

  it("leaves out what does not show in one decimal", () => {
    const told = changesTold([change("Taro", -9.8), change("Ice", 0.05), change("Water", 0.04)]);
    expect(told.map((one) => one.label)).toEqual(["Taro", "Ice"]);
  });
});
