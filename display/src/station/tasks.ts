/** What one station has to do, in the order in which it can: what is here first, then what is on its way. Pure. */
import type { Bump } from "../floor/bumps";
import { type Cell, cellsOf, doneLast } from "../floor/cups/cells";
import { comesFrom, doneEverywhere, endsAt } from "../floor/cups/where";
import type { Row } from "../link/queue";
import type { Station } from "../wire.gen";

/** One row's work at the station. */
export interface Task {
  readonly row: Row;
  readonly cell: Cell;
  /** Where the cup still is; undefined once it is here. */
  readonly from: Station | undefined;
  /** Whether every station is done and this one ends the drink, so that it is bumped from here. */
  readonly bump: boolean;
}

/** What is to do at `station`: here first, each in queue order. Void rows are nobody's task. */
export function tasksOf(rows: readonly Row[], station: Station, stations: readonly Station[]): Task[] {
  const all = rows
    .filter((row) => row.drink.state !== "void")
    .flatMap((row) =>
      cellsOf(row, [station]).map((cell) => ({
        row,
        cell,
        from: comesFrom(row, station, stations),
        bump: doneEverywhere(row) && endsAt(row) === station.id,
      })),
    )
    .filter(({ cell, bump }) => cell.state === "todo" || cell.state === "running" || bump);
  // What already runs here is here, wherever its cup is thought to be.
  const here = (task: Task): boolean => task.from === undefined || task.cell.state === "running";
  return [...all.filter(here), ...all.filter((task) => !here(task))];
}

/** What this station did last: a cell to do again, or a bump that ended here to recall. */
export type Lately =
  | { readonly at: number; readonly row: Row; readonly cell: Cell; readonly bump?: never }
  | { readonly at: number; readonly bump: Bump; readonly row?: never };

/** The last of what was done at `station`, newest first: drinks that went on, and drinks that ended here. */
export function lately(rows: readonly Row[], bumps: readonly Bump[], station: Station): Lately[] {
  const cells = rows
    .filter((row) => row.drink.state !== "void" && !(doneEverywhere(row) && endsAt(row) === station.id))
    .flatMap((row) => cellsOf(row, [station]).map((cell) => ({ row, cell })));
  const went = doneLast(cells).map(({ row, cell }) => ({
    row,
    cell,
    at: Math.max(...cell.steps.map((step) => cell.states[step.number - 1]?.finished_at ?? 0)),
  }));
  const ended = bumps
    .map((bump) => ({ ...bump, rows: bump.rows.filter((row) => endsAt(row) === station.id) }))
    .filter((bump) => bump.rows.length > 0)
    .map((bump) => ({ at: bump.at, bump }));
  return [...went, ...ended].sort((one, other) => other.at - one.at);
}

/** How many cups are here and how many on their way, in words. */
export function countWords(tasks: readonly Task[]): string {
  const cups = (some: readonly Task[]): number => some.reduce((sum, task) => sum + task.row.cups.length, 0);
  const coming = tasks.filter((task) => task.from !== undefined && task.cell.state !== "running");
  const here = cups(tasks) - cups(coming);
  if (tasks.length === 0) return "";
  return coming.length === 0 ? `${here} here` : `${here} here, ${cups(coming)} on the way`;
}
