/** Scales for drawings of seconds. Pure. */

/** Steps that people read durations in, in seconds. */
const STEPS = [5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 14_400];

/** Round tick values from 0 to at least `most` seconds, about `wanted` of them. */
export function ticks(most: number, wanted = 5): number[] {
  const rough = Math.max(1, most) / wanted;
  const step = STEPS.find((one) => one >= rough) ?? Math.ceil(rough / 3600) * 3600;
  const count = Math.max(1, Math.ceil(most / step));
  return Array.from({ length: count + 1 }, (_, index) => index * step);
}

/** Where `value` lies between `from` and `to`, in per cent, held within. */
export function share(value: number, from: number, to: number): number {
  if (!(to > from)) return 0;
  return Math.min(100, Math.max(0, ((value - from) / (to - from)) * 100));
}
