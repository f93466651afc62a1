import { describe, expect, it } from "vitest";
import { clear, FRAME, HANDS, OFF, plot } from "../src/owner/bench/tradeoff/tradeplot";
import type { TradePoint } from "../src/wire.gen";

const point = (patience: number, seconds: number, p95 = 10): TradePoint => ({
  patience,
  built: 90,
  refused: 10,
  fussy_pct: 0,
  seconds,
  median_pct: 1,
  p95_pct: p95,
});

describe("the plots of taste against hands", () => {
  it("stand doublings of patience equally far apart", () => {
    const { across } = plot([point(1, 50), point(2, 51), point(4, 52), point(16, 53)], HANDS);
    const [one, two, four, sixteen] = across.map(({ x }) => x) as [number, number, number, number];
    expect(four - two).toBeCloseTo(two - one);
    expect(sixteen - four).toBeCloseTo(2 * (two - one));
  });

  it("begin at nought, and what is twice as much stands twice as high", () => {
    const { lines } = plot([point(1, 20), point(2, 40)], HANDS);
    const bottom = FRAME.height - FRAME.bottom;
    const [low, high] = (lines[0]?.dots ?? []).map(({ y }) => bottom - y) as [number, number];
    expect(high).toBeCloseTo(2 * low);
  });

  it("keep names of lines apart that end at the same height", () => {
    expect(clear([100, 100, 40], 200)).toEqual([100, 115, 40]);
    expect(clear([200, 200], 200)).toEqual([185, 200]);
    const names = plot([point(1, 50, 0.5), point(2, 50, 0.5)], OFF).lines.map(({ nameY }) => nameY);
    expect(new Set(names).size).toBe(3);
  });

  it("are empty before the first point", () => {
    expect(plot([], OFF)).toEqual({ lines: [], across: [], up: [] });
  });
});
