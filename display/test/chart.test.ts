import { describe, expect, it } from "vitest";
import { chart, FRAME } from "../src/owner/measure/chart";
import { celsiusOf, gramsOf, keyed } from "../src/owner/measure/readings";
import type { Weighing } from "../src/wire.gen";

const WEIGHING: Weighing = {
  unit: "g",
  readings: [8, 8.1, 7.9, 12],
  mean: 9,
  spread: 2,
  spread_pct: 22,
  margin: 1,
  low: 7,
  high: 11,
  outside: [4],
  needed: null,
  verdict: "not one process",
  words: "",
  enough: "",
};

describe("the control chart", () => {
  it("holds every reading and limit inside its frame, heavier ones higher", () => {
    const drawn = chart(WEIGHING.readings, WEIGHING);
    const heights = [...drawn.points.map((point) => point.y), drawn.low ?? -1, drawn.high ?? -1];
    for (const y of heights) {
      expect(y).toBeGreaterThanOrEqual(FRAME.top);
      expect(y).toBeLessThanOrEqual(FRAME.height - FRAME.bottom);
    }
    expect(drawn.high).toBeLessThan(drawn.mean ?? 0);
    expect(drawn.mean).toBeLessThan(drawn.low ?? 0);
    expect(drawn.points[3]?.y).toBeLessThan(drawn.high ?? 0);
  });

  it("draws the mean half way between limits that lie evenly about it", () => {
    const drawn = chart(WEIGHING.readings, WEIGHING);
    expect(drawn.mean).toBeCloseTo(((drawn.low ?? 0) + (drawn.high ?? 0)) / 2, 9);
  });

  it("marks the readings that stand out, and no others", () => {
    expect(chart(WEIGHING.readings, WEIGHING).points.map((point) => point.outside)).toEqual([
      false,
      false,
      false,
      true,
    ]);
  });

  it("has a scale for one reading and for equal ones, and room for a hundred", () => {
    for (const readings of [[8], [8, 8, 8]]) {
      const { points, ticks } = chart(readings, null);
      expect(points.every((point) => Number.isFinite(point.y))).toBe(true);
      expect(ticks.length).toBeGreaterThan(0);
    }
    const many = chart(
      Array.from({ length: 100 }, (_, index) => 8 + (index % 3)),
      null,
    );
    expect(Math.max(...many.points.map((point) => point.x))).toBeLessThanOrEqual(FRAME.width - FRAME.right);
    expect(chart([], null).points).toEqual([]);
  });
});

describe("the number pad", () => {
  const typed = (keys: string): string => [...keys].reduce(keyed, "");
  it("takes weights and nothing else", () => {
    expect(typed("9.45")).toBe("9.45");
    expect(typed("9..4.5x1")).toBe("9.45");
    expect(typed("12345")).toBe("1234");
    expect(typed("9.456")).toBe("9.45");
    expect(typed("07")).toBe("7");
    expect(typed("0.5")).toBe("0.5");
    expect(keyed("9.4", "back")).toBe("9.");
  });

  it("reads grams, but not from nothing or zero", () => {
    expect(gramsOf("9.4")).toBe(9.4);
    expect([gramsOf(""), gramsOf("."), gramsOf("0"), gramsOf("0.0")]).toEqual([
      undefined,
      undefined,
      undefined,
      undefined,
    ]);
  });

  it("reads a temperature, zero among them, but not from nothing", () => {
    expect([celsiusOf("0"), celsiusOf("2.5"), celsiusOf(""), celsiusOf("."), celsiusOf("101")]).toEqual([
      0,
      2.5,
      undefined,
      undefined,
      undefined,
    ]);
  });
});
