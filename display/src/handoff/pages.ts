/** Ready numbers on the customers' board: newest first, as many on a page as can be read from afar. Pure. */
import type { Ticket } from "../wire.gen";

/** A page's columns and rows. */
export interface Grid {
  readonly columns: number;
  readonly rows: number;
}

/**
 * Room that a number with its name takes at least, in sizes of the type that is right at the distance set: the number is
 * then three times as high, so that it is still read from three times as far.
 */
const LEAST_WIDE = 4.6;
const LEAST_HIGH = 5.2;

/** More than so many across, and nobody finds theirs. */
const MOST_ACROSS = 5;

/** The largest grid whose numbers can still be read, in a room of `width` × `height` px with type of `text` px. */
export function largestGrid(width: number, height: number, text: number): Grid {
  const across = Math.floor(width / (text * LEAST_WIDE));
  return {
    columns: Math.max(1, Math.min(MOST_ACROSS, across)),
    rows: Math.max(1, Math.floor(height / (text * LEAST_HIGH))),
  };
}

/** The grid for `count` numbers: few stand large, and none smaller than in the largest grid. */
export function gridFor(count: number, largest: Grid): Grid {
  const room = (grid: Grid): number => grid.columns * grid.rows;
  if (count >= room(largest)) return largest;
  // Two by two at least, so that nothing jumps with the second number.
  let grid: Grid = { columns: Math.min(2, largest.columns), rows: Math.min(2, largest.rows) };
  while (room(grid) < count) {
    const wider = grid.columns < largest.columns && (grid.columns <= grid.rows || grid.rows >= largest.rows);
    grid = wider ? { ...grid, columns: grid.columns + 1 } : { ...grid, rows: grid.rows + 1 };
  }
  return grid;
}

/** What stands on the board at `at` (ms), newest first: ready, and no longer than `keepsSeconds` (undefined: for ever). */
export function onBoard(tickets: readonly Ticket[], at: number, keepsSeconds: number | undefined): Ticket[] {
  return tickets
    .filter(({ state, ready_at: ready }) => state === "ready" && !offBoard(ready ?? at, at, keepsSeconds))
    .sort((one, other) => (other.ready_at ?? 0) - (one.ready_at ?? 0));
}

/** Whether a number that became ready at `readyAt` (ms) has left the board by `at`. */
export function offBoard(readyAt: number, at: number, keepsSeconds: number | undefined): boolean {
  return keepsSeconds !== undefined && at - readyAt >= keepsSeconds * 1000;
}

/** Things in pages of `each`; one empty page where there are none. */
export function pagesOf<Thing>(things: readonly Thing[], each: number): Thing[][] {
  const pages: Thing[][] = [];
  for (let from = 0; from < things.length; from += each) pages.push(things.slice(from, from + each));
  return pages.length > 0 ? pages : [[]];
}
