/** How wide each station's column is: by the longest thing ever said in it, so that it never narrows. */
import type { Row } from "../queue";
import type { Station, Step } from "../wire.gen";
import { amountFigure } from "./sheet";

/** Characters that even an empty column gets, and the most that any is given. */
const LEAST = 5;
const MOST = 22;

/** Lines that a cell may take before its column is made wider instead. */
const LINES = 3;

/** A figure is set larger than a label, and a mark takes about as much room as a letter. */
const FIGURE_WIDTH = 1.4;

const widest = new Map<string, number>();

/** Characters of room that one step takes when it stands on one line. */
function roomOf(step: Step): number {
  const marks =
    step.amount && step.amount.kind !== "jug" && step.amount.kind !== "jigger" ? step.amount.count : 0;
  return amountFigure(step).length * FIGURE_WIDTH + Math.min(marks, 10) + step.short.length + 1;
}

/** Characters of room a row's cell wants: no word cut, no more than a few lines. */
function roomOfCell(steps: readonly Step[]): number {
  const words = steps.flatMap((step) => [...step.short.split(/\s+/), amountFigure(step)]);
  const longest = Math.max(0, ...words.map((word) => word.length * 1.1));
  const all = steps.reduce((sum, step) => sum + roomOf(step), 0);
  return Math.max(longest, all / LINES, steps.length > LINES ? Math.max(...steps.map(roomOf)) : 0);
}

/** One weight a station. What a column has grown to it keeps as long as the page is open. */
export function columnWeights(rows: readonly Row[], stations: readonly Station[]): number[] {
  return stations.map((station) => {
    const wanted = rows.map((row) =>
      roomOfCell(row.build.steps.filter((step) => step.station === station.id)),
    );
    const weight = Math.min(
      MOST,
      Math.max(LEAST, station.name.length * 0.9, widest.get(station.id) ?? 0, ...wanted),
    );
    widest.set(station.id, weight);
    return weight;
  });
}
