/** Where the cup of a row is now: a cup goes along the counter once, in the order of its stations. Pure. */
import type { Row } from "../../link/queue";
import type { Station } from "../../wire.gen";
import { stepState } from "./cells";

/** The first station that still has something to do for the row; undefined once all are done. */
export function whereNow(row: Row, stations: readonly Station[]): Station | undefined {
  return stations.find((station) =>
    row.build.steps.some(
      (step) => step.station === station.id && stepState(row.drink.steps, step) !== "done",
    ),
  );
}

/** Where the cup has still to come from before it is at `station`; undefined when it is there, or past it. */
export function comesFrom(row: Row, station: Station, stations: readonly Station[]): Station | undefined {
  const now = whereNow(row, stations);
  return now && stations.indexOf(now) < stations.findIndex((one) => one.id === station.id) ? now : undefined;
}

/** Whether every station is done with the row, so that nothing is left but to bump it. */
export function doneEverywhere(row: Row): boolean {
  const { steps } = row.build;
  return steps.length > 0 && steps.every((step) => stepState(row.drink.steps, step) === "done");
}

/** The station that ends the row: its last step is made there. */
export function endsAt(row: Row): string | undefined {
  return row.build.steps[row.build.steps.length - 1]?.station;
}
