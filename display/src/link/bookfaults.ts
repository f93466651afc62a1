/** Whether a newer book in the folder was refused: asked now and then, since nothing at the bar changes by it. */
import { effect, signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { BookFault, BookState } from "../wire.gen";
import { counted } from "../words/words";
import { ask } from "./api";
import { linkState } from "./shop";

/** Asked anew this often, in ms. */
const AGAIN_MS = 20_000;

const found = signal<readonly BookFault[]>([]);

async function look(): Promise<void> {
  try {
    found.value = (await ask<BookState>("/api/book")).faults;
  } catch {
    // The link's own state tells of it; what was known of the book stays.
  }
}

/** The faults of a newer book that was refused; none where the folder's book is in force. */
export function useBookFaults(): readonly BookFault[] {
  useEffect(() => {
    const stop = effect(() => {
      if (linkState.value === "live") void look();
    });
    const again = setInterval(() => void look(), AGAIN_MS);
    return () => {
      stop();
      clearInterval(again);
    };
  }, []);
  return found.value;
}

/** One calm line on a refused book; empty where there is none. Pure. */
export function refusedWords(faults: readonly BookFault[]): string {
  const first = faults[0];
  if (!first) return "";
  const where = `${first.file}, line ${first.line}`;
  const what =
    faults.length === 1 ? `a fault in ${where}` : `${counted(faults.length, "fault")}, first ${where}`;
  return `The new book was refused (${what}). The last good one is in force.`;
}
