/** Prices among the edits: which changed from what to what, and all of them raised or lowered at once. Pure. */
import { type Edits, heldAt, same, setKey } from "./edits";
import type { Sheet } from "./sheets";

/** One price that is edited; empty where there was none, or is none any more. */
export interface PriceChange {
  /** Of what: "Taro Milk Tea, Small". */
  readonly name: string;
  readonly from: string;
  readonly to: string;
}

const said = (value: unknown): string => (typeof value === "string" ? value : "");

/** The prices of these sheets that are edited, in their order. */
export function priceChanges(edits: Edits, sheets: readonly Sheet[]): PriceChange[] {
  return sheets.flatMap(({ file, title, fields }) =>
    fields.flatMap((field) => {
      const now = heldAt(edits, file, field.path, field.value);
      if (field.kind !== "price" || same(now, field.value)) return [];
      const name = `${title}, ${field.label ?? field.key.replaceAll("_", " ")}`;
      return [{ name, from: said(field.value), to: said(now) }];
    }),
  );
}

/** A price as it is written, in minor units; nothing where it is none. */
export function minorOf(text: string, digits: number): number | undefined {
  const plain = text.trim().replace(",", ".");
  if (!/^\d+(\.\d*)?$/.test(plain)) return undefined;
  const [whole = "", part = ""] = plain.split(".");
  if (part.length > digits) return undefined;
  return Number(whole + part.padEnd(digits, "0"));
}

/** Minor units as the book's files write a price: "4.60". */
export function writtenPrice(minor: number, digits: number): string {
  if (digits === 0) return String(minor);
  const text = String(minor).padStart(digits + 1, "0");
  return `${text.slice(0, -digits)}.${text.slice(-digits)}`;
}

/** A price and so many per cent, to the nearest multiple of `step` minor units, a half upwards. */
export function raised(minor: number, percent: number, step: number): number {
  // Per cents have at most one decimal: in whole thousandths no half is lost to binary fractions.
  const thousandths = minor * (1000 + Math.round(percent * 10));
  return Math.max(0, Math.floor(thousandths / (1000 * step) + 0.5) * step);
}

/** The most that a raise can be in per cent, either way. */
export const MOST_PERCENT = 50;

/** The per cents that were typed, "5", "2,5" or "-10"; nothing where they are none. */
export function percentOf(text: string): number | undefined {
  const plain = text.trim().replace(",", ".").replace("−", "-").replace(/^\+/, "");
  if (!/^-?\d{1,2}(\.\d)?$/.test(plain)) return undefined;
  const percent = Number(plain);
  return percent !== 0 && Math.abs(percent) <= MOST_PERCENT ? percent : undefined;
}

/** The edits with every price of these sheets, as it is by now, raised; one of nothing stays. */
export function raiseAll(
  edits: Edits,
  sheets: readonly Sheet[],
  { percent, step, digits }: { readonly percent: number; readonly step: number; readonly digits: number },
): Edits {
  let next = edits;
  for (const { file, fields } of sheets) {
    for (const field of fields.filter(({ kind }) => kind === "price")) {
      const now = minorOf(said(heldAt(edits, file, field.path, field.value)), digits);
      if (now === undefined || now === 0) continue;
      const to = raised(now, percent, step);
      if (to !== now) next = setKey(next, file, field.path, writtenPrice(to, digits), field.value);
    }
  }
  return next;
}
