/** The geometry of the plots of taste against hands: patience across by doublings, figures up from nought. Pure. */
import type { TradePoint } from "../../../wire.gen";

export interface Frame {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export const FRAME: Frame = { width: 520, height: 250, left: 40, right: 158, top: 14, bottom: 44 };

/** One figure of a point, by its name. */
export interface Series {
  readonly name: string;
  readonly of: (point: TradePoint) => number;
}

export const OFF: readonly Series[] = [
  { name: "95 of 100 parts", of: (point) => point.p95_pct },
  { name: "half the parts", of: (point) => point.median_pct },
  { name: "fussy builds", of: (point) => point.fussy_pct },
];

export const HANDS: readonly Series[] = [{ name: "a drink", of: (point) => point.seconds }];

export interface Dot {
  readonly x: number;
  readonly y: number;
  readonly value: number;
}

export interface Line {
  readonly name: string;
  readonly dots: readonly Dot[];
  /** Where its name stands, at the right of its last point, clear of the others' names. */
  readonly nameY: number;
}

export interface Plot {
  readonly lines: readonly Line[];
  readonly across: readonly { readonly x: number; readonly patience: number }[];
  readonly up: readonly { readonly y: number; readonly value: number }[];
}

/** Steps that people read figures in, four or five of them up to `most`. */
function stepFor(most: number): number {
  const rough = most / 4;
  const power = 10 ** Math.floor(Math.log10(rough));
  return power * ([1, 2, 5].find((times) => times * power >= rough) ?? 10);
}

/** The least distance between two names, in the drawing's units. */
const NAME = 15;

/** Heights at which names stand clear of each other, in the order in which they were given. */
export function clear(heights: readonly number[], lowest: number): number[] {
  const order = heights.map((y, index) => ({ y, index })).sort((a, b) => a.y - b.y);
  const placed: { y: number; index: number }[] = [];
  for (const { y, index } of order) {
    placed.push({ y: Math.max(y, (placed.at(-1)?.y ?? Number.NEGATIVE_INFINITY) + NAME), index });
  }
  const over = Math.max(0, (placed.at(-1)?.y ?? 0) - lowest);
  return placed.sort((a, b) => a.index - b.index).map(({ y }) => y - over);
}

/** The plot of some figures; points in the order of patience. */
export function plot(points: readonly TradePoint[], series: readonly Series[], frame: Frame = FRAME): Plot {
  if (points.length === 0) return { lines: [], across: [], up: [] };
  const doublings = points.map((point) => Math.log2(point.patience));
  const least = Math.min(...doublings);
  const extent = Math.max(...doublings) - least || 1;
  const wide = frame.width - frame.left - frame.right - 20;
  const x = (index: number): number =>
    frame.left + 10 + (((doublings[index] ?? least) - least) / extent) * wide;
  const most = Math.max(1, ...points.flatMap((point) => series.map((one) => one.of(point)))) * 1.08;
  const high = frame.height - frame.top - frame.bottom;
  const y = (value: number): number => frame.top + high * (1 - value / most);
  const step = stepFor(most);
  const dots = series.map((one) =>
    points.map((point, index) => ({ x: x(index), y: y(one.of(point)), value: one.of(point) })),
  );
  const names = clear(
    dots.map((line) => line.at(-1)?.y ?? 0),
    frame.height - frame.bottom,
  );
  return {
    lines: series.map(({ name }, index) => ({ name, dots: dots[index] ?? [], nameY: names[index] ?? 0 })),
    across: points.map((point, index) => ({ x: x(index), patience: point.patience })),
    up: Array.from({ length: Math.floor(most / step) + 1 }, (_, index) => ({
      value: index * step,
      y: y(index * step),
    })),
  };
}
