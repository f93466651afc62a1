import { describe, expect, it } from "vitest";
import { heightOf, radiusAt, slices, TAPER } from "../src/parts/cupgeometry";
import { GROUP, lengthOf, MOST_MARKS, marksOf } from "../src/parts/marks";
import { share, ticks } from "../src/parts/scale";
import { build } from "./make";

describe("marks", () => {
  it("are as many as counted, the rest of a measure last", () => {
    expect(marksOf(3).map((mark) => mark.share)).toEqual([1, 1, 1]);
    expect(marksOf(1.5).map((mark) => mark.share)).toEqual([1, 0.5]);
    expect(marksOf(0.25).map((mark) => mark.share)).toEqual([0.25]);
  });

  it("stand in groups of five with a wider gap between", () => {
    const gaps = marksOf(12).map((mark, index, all) => mark.at - (all[index - 1]?.at ?? mark.at));
    const usual = gaps[1] ?? 0;
    gaps.forEach((gap, index) => {
      if (index === 0) return;
      if (index % GROUP === 0) expect(gap).toBeGreaterThan(usual * 1.4);
      else expect(gap).toBeCloseTo(usual);
    });
  });

  it("never overlap", () => {
    const all = marksOf(MOST_MARKS);
    const gaps = all.slice(1).map((mark, index) => mark.at - (all[index]?.at ?? 0));
    expect(Math.min(...gaps)).toBeGreaterThan(1);
    expect(lengthOf(all)).toBe((all.at(-1)?.at ?? 0) + 1);
  });

  it("are left out where they cannot be counted at a glance, or there is nothing", () => {
    expect([marksOf(MOST_MARKS + 0.5), marksOf(0), marksOf(-1), marksOf(Number.NaN)]).toEqual([
      [],
      [],
      [],
      [],
    ]);
  });
});

/** Volume of a cone's slice from the bottom to a height, by the formula for a frustum: πh(R² + Rr + r²)/3. */
function frustum(height: number): number {
  const top = radiusAt(height);
  return (Math.PI * height * (TAPER ** 2 + TAPER * top + top ** 2)) / 3;
}

describe("the cup", () => {
  it("is filled to scale: the height of a share holds just that share of the frustum's volume", () => {
    for (const part of [0, 0.1, 0.5, 0.88, 1]) {
      expect(frustum(heightOf(part)) / frustum(1)).toBeCloseTo(part, 9);
    }
  });

  it("stacks its layers without gap, below the brim", () => {
    const fill = {
      ...build("a").fill,
      layers: [
        { what: "topping", label: "pearls", volume_ml: 80 },
        { what: "liquid", label: "tea", volume_ml: 300 },
        { what: "ice", label: "ice", volume_ml: 0 },
        { what: "ice", label: "cubes", volume_ml: 60 },
      ],
    };
    const { slices: drawn, line, filled } = slices(fill);
    expect(drawn.map((one) => one.label)).toEqual(["pearls", "tea", "cubes"]);
    expect(drawn[0]?.from).toBe(0);
    expect(drawn[1]?.from).toBe(drawn[0]?.to);
    expect(filled).toBe(drawn[2]?.to);
    expect(filled).toBeLessThan(line);
  });
});

describe("scales", () => {
  it("go from nothing to at least the longest, in steps that people read", () => {
    for (const most of [3, 47, 61, 299, 3000, 90_000]) {
      const made = ticks(most);
      expect(made[0]).toBe(0);
      expect(made.at(-1)).toBeGreaterThanOrEqual(most);
      expect(made.length).toBeLessThanOrEqual(8);
    }
    expect(ticks(290, 5)).toEqual([0, 60, 120, 180, 240, 300]);
  });

  it("hold a share within the drawing", () => {
    expect([share(5, 0, 10), share(-5, 0, 10), share(50, 0, 10), share(1, 1, 1)]).toEqual([50, 0, 100, 0]);
  });
});
