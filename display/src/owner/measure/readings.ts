/** Readings of a scale as they are keyed in on a number pad. Pure. */

/** The most figures before and after the point: 9999.99 g is more than any measure of a bar weighs. */
const ENTRY = /^(\d{0,4})(\.\d{0,2})?$/;

/** What stands on the pad after a key: a figure, ".", or "back". Keys that make no weight do nothing. */
export function keyed(held: string, key: string): string {
  if (key === "back") return held.slice(0, -1);
  const next = held === "0" && key !== "." ? key : held + key;
  return ENTRY.test(next) ? next : held;
}

/** The weight on the pad in grams, or nothing while it is none. */
export function gramsOf(held: string): number | undefined {
  const grams = Number(held);
  return held !== "" && Number.isFinite(grams) && grams > 0 ? grams : undefined;
}

/** The temperature on the pad in °C; 0 is one. */
export function celsiusOf(held: string): number | undefined {
  const celsius = Number(held);
  return held !== "" && held !== "." && celsius <= 100 ? celsius : undefined;
}
