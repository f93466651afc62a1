/** What is to be settled of an order some of whose drinks are void or others by now. Pure. */
import type { OrderRow } from "../../wire.gen";

/** What was charged at ring-in less what the drinks come to by now, in minor units; below 0 it is to be paid. */
export function payBack(order: Pick<OrderRow, "gross" | "due">): number {
  return order.gross - order.due;
}

/** The amount to give back, or to pay, as money; a dash where there is neither. */
export function backWords(order: Pick<OrderRow, "gross" | "due">, write: (minor: number) => string): string {
  const back = payBack(order);
  return back === 0 ? "–" : differenceWords(-back, write);
}

/** "€0.70 to be paid", "€0.70 to be given back", "the same price". */
export function differenceWords(difference: number, write: (minor: number) => string): string {
  if (difference === 0) return "the same price";
  return difference > 0 ? `${write(difference)} to be paid` : `${write(-difference)} to be given back`;
}
