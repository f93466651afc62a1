/** The control chart's geometry: readings in order, their mean and limits, on a scale that holds all. Pure. */
import type { Weighing } from "../../wire.gen";

/** The drawing's size and its margins, in its own units. */
export interface Frame {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export const FRAME: Frame = { width: 520, height: 220, left: 46, right: 92, top: 14, bottom: 26 };

/** How far the first and last reading stand inside the frame. */
const INSET = 14;

/** A reading's mark: its number (from 1), its place, and whether it stands out. */
export interface Point {
  readonly number: number;
  readonly value: number;
  readonly x: number;
  readonly y: number;
  readonly outside: boolean;
}

/** What is to be drawn. Lines are heights; undefined while there are too few readings for them. */
export interface Chart {
  readonly points: readonly Point[];
  readonly mean: number | undefined;
  readonly low: number | undefined;
  readonly high: number | undefined;
  readonly ticks: readonly { readonly value: number; readonly y: number }[];
}

/** Steps that people read figures in. */
function stepFor(extent: number): number {
  const rough = extent / 3;
  const power = 10 ** Math.floor(Math.log10(rough));
  return power * ([1, 2, 5].find((times) => times * power >= rough) ?? 10);
}

/** The chart of the readings so far; `weighing` may lag behind them or be missing. */
export function chart(readings: readonly number[], weighing: Weighing | null, frame: Frame = FRAME): Chart {
  const limits = weighing ? [weighing.low, weighing.high, weighing.mean] : [];
  const all = [...readings, ...limits];
  if (all.length === 0) return { points: [], mean: undefined, low: undefined, high: undefined, ticks: [] };
  const least = Math.min(...all);
  const most = Math.max(...all);
  // Equal readings still need a scale: a twentieth of them either side.
  const room = Math.max((most - least) * 0.12, most * 0.01, 0.01);
  const from = least - room;
  const to = most + room;
  const high = frame.height - frame.top - frame.bottom;
  const y = (value: number): number => frame.top + high * (1 - (value - from) / (to - from));
  const wide = frame.width - frame.left - frame.right - 2 * INSET;
  const pitch = wide / Math.max(9, readings.length - 1);
  const step = stepFor(to - from);
  const first = Math.ceil(from / step);
  const count = Math.floor(to / step) - first + 1;
  return {
    points: readings.map((value, index) => ({
      number: index + 1,
      value,
      x: frame.left + INSET + index * pitch,
      y: y(value),
      outside: weighing?.outside.includes(index + 1) ?? false,
    })),
    mean: weighing ? y(weighing.mean) : undefined,
    low: weighing ? y(weighing.low) : undefined,
    high: weighing ? y(weighing.high) : undefined,
    ticks: Array.from({ length: Math.max(0, count) }, (_, index) => {
      const value = (first + index) * step;
      return { value, y: y(value) };
    }),
  };
}
