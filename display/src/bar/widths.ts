/** How wide each station's column is: by the longest thing ever said in it, so that it never narrows. */
import type { Row } from "../queue";
import type { Station } from "../wire.gen";
import { amountFigure } from "./sheet";

/** Characters that even an empty column gets, and the most that any is given. */
const LEAST = 5;
const MOST = 12;

const widest = new Map<string, number>();

/** Characters needed for the longest word or count of a station's cells. */
function need(rows: readonly Row[], station: Station): number {
  let longest = Math.max(LEAST, station.name.length * 0.8);
  for (const row of rows) {
    for (const step of row.build.steps) {
      if (step.station !== station.id) continue;
      const word = Math.max(...step.short.split(/\s+/).map((part) => part.length));
      const count = amountFigure(step).length + (step.amount ? Math.min(step.amount.count, 10) * 0.8 : 0);
      longest = Math.max(longest, word, step.amount?.kind === "jug" ? amountFigure(step).length : count);
    }
  }
  return Math.min(MOST, longest);
}

/** One weight a station. What a column has grown to it keeps as long as the page is open. */
export function columnWeights(rows: readonly Row[], stations: readonly Station[]): number[] {
  return stations.map((station) => {
    const weight = Math.max(widest.get(station.id) ?? 0, need(rows, station));
    widest.set(station.id, weight);
    return weight;
  });
}
