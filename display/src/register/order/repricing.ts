/**
 * Lines quoted before the book changed are quoted anew: a ring-in is charged by the book in force, and the
 * register must not have said another price. One line at a time, so that each answer finds its line unchanged.
 */
import { computed, effect, signal } from "@preact/signals";
import { lineOf } from "../../line/draft";
import { Refused, send } from "../../link/api";
import { menu } from "../../link/shop";
import type { Quote } from "../../wire.gen";
import { lines, locked, type OrderLine } from "./order";

/** A line that got no answer is asked for again after so many ms. */
const AGAIN_MS = 3000;

/** The first line whose price is of another book than the menu's. An order that may be in is left as it is. */
export const outdated = computed<OrderLine | undefined>(() => {
  const book = menu.value?.book;
  if (book === undefined || locked.value) return undefined;
  return lines.value.find((line) => line.book !== book);
});

/** The line by the new book. `was` keeps the price that was told first. */
export function repriced(line: OrderLine, quote: Quote, book: string): OrderLine {
  const told = line.book === "" ? quote.price : (line.was ?? line.unit);
  return {
    ...line,
    unit: quote.price,
    title: quote.build.title,
    words: quote.build.words,
    book,
    was: told === quote.price ? null : told,
    refused: null,
  };
}

async function reprice(line: OrderLine, book: string, stale: AbortSignal): Promise<OrderLine | undefined> {
  try {
    const quote = await send<Quote>("/api/quote", lineOf(line.draft), { signal: stale });
    return repriced(line, quote, book);
  } catch (error) {
    return error instanceof Refused ? { ...line, book, refused: error.message } : undefined;
  }
}

/** Keeps the prices of the open order to the book of the menu, until told to stop. */
export function keepPrices(): () => void {
  const again = signal(0);
  return effect(() => {
    const line = outdated.value;
    const now = menu.value?.book;
    void again.value;
    if (!line || now === undefined) return undefined;
    const stale = new AbortController();
    let timer: ReturnType<typeof setTimeout> | undefined;
    void reprice(line, now, stale.signal).then((after) => {
      if (stale.signal.aborted) return;
      if (after) lines.value = lines.value.map((one) => (one.key === line.key ? after : one));
      else
        timer = setTimeout(() => {
          again.value += 1;
        }, AGAIN_MS);
    });
    return () => {
      stale.abort();
      clearTimeout(timer);
    };
  });
}
