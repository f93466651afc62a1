/** How wide each station's column is: by the longest thing ever said in it, so that it never narrows. */

import { amountFigure, goesInHot, isPoured, lengthOf, measuredTwice } from "../floor/cups/cells";
import type { Row } from "../link/queue";
import { GROUP, marksOf } from "../parts/marks";
import type { Station, Step } from "../wire.gen";

/** What a column needs, in widths of a letter: no word cut (`least`), and so that cells stay low (`wanted`). */
export interface Room {
  readonly least: number;
  readonly wanted: number;
}

/** A digit of a figure, and a mark, in widths of a label's letter. */
const FIGURE = 1.5;
const MARK = 1.15;
const LEAST = 4;

/** Letters' width of the figure with its marks, its unit, or both where two tools measure the ingredient. */
function countRoom(step: Step, twice: boolean): number {
  if (!step.amount) return 0;
  const marks = 0.5 + Math.min(marksOf(step.amount.kind, step.amount.count), GROUP) * MARK;
  const beside = isPoured(step) ? 3 : marks + (twice ? step.amount.unit.length + 0.5 : 0);
  return amountFigure(step).length * FIGURE + beside;
}

/** What one cell's steps need: at least no word cut, and wanted that each step stands on a line of its own. */
export function roomOf(steps: readonly Step[]): Room {
  let least = LEAST;
  let wanted = LEAST;
  for (const step of steps) {
    const length = lengthOf(step) + (goesInHot(step) ? "hot" : "");
    const words = [...step.short.split(/\s+/), length].map((word) => word.length);
    const count = countRoom(step, measuredTwice(steps, step));
    least = Math.max(least, countRoom(step, false), ...words);
    // How long an amount takes may stand below it; how long mere work takes belongs beside it.
    wanted = Math.max(wanted, count + step.short.length + 1.5 + (step.amount ? 0 : length.length));
  }
  return { least, wanted: Math.max(least, wanted) };
}

/** The larger of two needs. */
const both = (one: Room, other: Room): Room => ({
  least: Math.max(one.least, other.least),
  wanted: Math.max(one.wanted, other.wanted),
});

/** What a column needs for its name and the cells of these rows. */
export function columnRoom(rows: readonly Row[], station: Station): Room {
  const name = Math.max(...station.name.split(/\s+/).map((word) => word.length));
  return rows
    .map((row) => roomOf(row.build.steps.filter((step) => step.station === station.id)))
    .reduce(both, { least: name, wanted: name });
}

const grown = new Map<string, Room>();

/** A letter's width in the size of a label, on the average, and a cell's padding with its rule. */
const LETTER = 0.5;
const PADDING = 22;

/**
 * The columns' widths as CSS lengths. Each gets what it needs least; what is left over goes to those that
 * want more. What a column has grown to it keeps as long as the page is open.
 */
export function columnWidths(rows: readonly Row[], stations: readonly Station[]): string[] {
  const rooms = stations.map((station) => {
    const room = both(grown.get(station.id) ?? { least: 0, wanted: 0 }, columnRoom(rows, station));
    grown.set(station.id, room);
    return room;
  });
  const least = rooms.reduce((sum, room) => sum + room.least * LETTER, 0).toFixed(2);
  const more = rooms.map((room) => room.wanted - room.least + 0.5);
  const allMore = more.reduce((sum, one) => sum + one, 0);
  const left = `(100vw - var(--sheet-fixed) - ${least} * var(--fit-small) - ${PADDING * stations.length}px)`;
  return rooms.map((room, index) => {
    const share = ((more[index] ?? 0) / allMore).toFixed(4);
    return `calc(${(room.least * LETTER).toFixed(2)} * var(--fit-small) + ${PADDING}px + ${left} * ${share})`;
  });
}
