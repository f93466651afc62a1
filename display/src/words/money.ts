/** Money is whole minor units with a currency; it turns into text only here. */

/** Writes amounts of one currency, e.g. 495 EUR with 2 minor digits as "€4.95". */
export function moneyWriter(currency: string, minorDigits: number): (minor: number) => string {
  const format = new Intl.NumberFormat("en-IE", {
    style: "currency",
    currency,
    minimumFractionDigits: minorDigits,
    maximumFractionDigits: minorDigits,
  });
  const unit = 10 ** minorDigits;
  return (minor) => format.format(minor / unit);
}

/** A price difference as said beside a choice: "+€0.50", "−€0.20", or nothing when there is none. */
export function extraPrice(write: (minor: number) => string, minor: number): string {
  if (minor === 0) return "";
  return minor > 0 ? `+${write(minor)}` : `−${write(-minor)}`;
}
