import { describe, expect, it } from "vitest";
import { heightOf, radiusAt, slices, TAPER } from "../src/line/cupgeometry";
import { GROUP, groupsOf, lengthOf, MOST_MARKS } from "../src/parts/marks";
import { share, ticks } from "../src/times/scale";
import { build } from "./make";

describe("marks", () => {
  const sharesOf = (count: number): number[][] =>
    groupsOf(count).map((group) => group.map((mark) => mark.share));

  it("are as many as counted, the rest of a measure last", () => {
    expect(sharesOf(3)).toEqual([[1, 1, 1]]);
    expect(sharesOf(1.5)).toEqual([[1, 0.5]]);
    expect(sharesOf(0.25)).toEqual([[0.25]]);
  });

  it("stand in groups of five", () => {
    expect(sharesOf(12).map((group) => group.length)).toEqual([GROUP, GROUP, 2]);
    expect(sharesOf(5.5)).toEqual([[1, 1, 1, 1, 1], [0.5]]);
  });

  it("never overlap", () => {
    const [group = []] = groupsOf(GROUP);
    const gaps = group.slice(1).map((mark, index) => mark.at - (group[index]?.at ?? 0));
    expect(Math.min(...gaps)).toBeGreaterThan(1);
    expect(lengthOf(group)).toBe((group.at(-1)?.at ?? 0) + 1);
    expect(lengthOf([])).toBe(0);
  });

  it("are left out where they cannot be counted at a glance, or there is nothing", () => {
    expect([MOST_MARKS + 0.5, 0, -1, Number.NaN].map(groupsOf)).toEqual([[], [], [], []]);
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
