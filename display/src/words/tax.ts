/**
 * What an order comes to, reckoned by the same rule as the service's: whole minor units, exact quotients of
 * whole numbers, rounded half up once per order or on every line. Pure.
 */
import type { TaxRule } from "../wire.gen";

/** `net + tax` is always `gross`, which is what is paid; all in minor units. */
export interface Sum {
  readonly net: number;
  readonly tax: number;
  readonly gross: number;
}

const DECIMAL = /^(\d+)(?:\.(\d+))?$/;

/** A percentage as the quotient of two whole numbers: "8.1" is 81 over 10. */
function quotient(percent: string): readonly [bigint, bigint] {
  const [, whole, fraction = ""] = DECIMAL.exec(percent) ?? [];
  if (whole === undefined)
    throw new RangeError(`tax.percent: "${percent}". Accepted: a decimal like 10 or 8.1`);
  return [BigInt(whole + fraction), 10n ** BigInt(fraction.length)];
}

/** The whole number nearest to a quotient, halves away from zero; `denominator` above 0. */
function halfUp(numerator: bigint, denominator: bigint): bigint {
  const size = numerator < 0n ? -numerator : numerator;
  const nearest = (2n * size + denominator) / (2n * denominator);
  return numerator < 0n ? -nearest : nearest;
}

/** The tax in (or on) an amount of minor units, rounded half up. */
export function taxOf(amount: number, rule: TaxRule): number {
  const [part, whole] = quotient(rule.percent);
  const base = 100n * whole;
  return Number(halfUp(BigInt(amount) * part, rule.included ? base + part : base));
}

/** Adds up the lines of an order, each in minor units as priced in the book. */
export function totalsOf(amounts: readonly number[], rule: TaxRule): Sum {
  const listed = amounts.reduce((sum, amount) => sum + amount, 0);
  const tax =
    rule.rounded === "order"
      ? taxOf(listed, rule)
      : amounts.reduce((sum, amount) => sum + taxOf(amount, rule), 0);
  const net = rule.included ? listed - tax : listed;
  return { net, tax, gross: net + tax };
}

/** "VAT 10 %". */
export function taxName(rule: TaxRule): string {
  return `${rule.name} ${rule.percent} %`;
}
