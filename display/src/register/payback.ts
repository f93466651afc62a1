/** What is to be paid back of an order some of whose drinks are void. Pure. */
import type { OrderRow } from "../wire.gen";

/** What was charged at ring-in less what the standing drinks come to, in minor units. */
export function payBack(order: Pick<OrderRow, "gross" | "due">): number {
  return order.gross - order.due;
}

/** The amount to pay back as money; a dash where nothing is. */
export function backWords(order: Pick<OrderRow, "gross" | "due">, write: (minor: number) => string): string {
  const back = payBack(order);
  return back === 0 ? "–" : write(back);
}
