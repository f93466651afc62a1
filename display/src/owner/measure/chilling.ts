/** What is known of a shake before the thermometer is read, as typed. Pure. */
import type { ChillReading } from "../../wire.gen";

/** A figure that stays from one trial to the next until it is changed. */
export interface KnownField {
  readonly key: Exclude<keyof ChillReading, "end_c">;
  readonly name: string;
  /** The name where it stands alone, read out. */
  readonly says: string;
  readonly unit: string;
}

export const KNOWN_FIELDS: readonly KnownField[] = [
  { key: "liquid_g", name: "Liquid", says: "Liquid, in grams", unit: "g" },
  { key: "liquid_c", name: "at", says: "Liquid at, in °C", unit: "°C" },
  { key: "ice_g", name: "Ice", says: "Ice, in grams", unit: "g" },
  { key: "ice_c", name: "at", says: "Ice at, in °C", unit: "°C" },
];

export type Known = Readonly<Record<KnownField["key"], string>>;

/** Nothing weighed yet; the ice is drained ice from the bin. */
export const NOTHING_KNOWN: Known = { liquid_g: "", liquid_c: "", ice_g: "", ice_c: "0" };

function figure(text: string): number {
  const plain = text.trim().replace(",", ".").replace("−", "-");
  return plain === "" ? Number.NaN : Number(plain);
}

/** A trial, once the end temperature is read; or what is missing, in words. */
export function trialOf(known: Known, end_c: number): ChillReading | string {
  const reading = {
    liquid_g: figure(known.liquid_g),
    liquid_c: figure(known.liquid_c),
    ice_g: figure(known.ice_g),
    ice_c: figure(known.ice_c),
    end_c,
  };
  if (!(reading.liquid_g > 0)) return "Liquid: how many grams? Accepted is a weight such as 250.";
  if (!(reading.liquid_c > 0 && reading.liquid_c <= 100))
    return "How warm was the liquid? Accepted is above 0 and up to 100 °C.";
  if (!(reading.ice_g > 0)) return "Ice: how many grams? Accepted is a weight such as 200.";
  if (!(reading.ice_c >= -40 && reading.ice_c <= 0))
    return "How cold was the ice? Accepted is -40 to 0 °C; drained from a bin it is 0.";
  return reading;
}
