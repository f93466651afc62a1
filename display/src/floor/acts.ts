/** What hands do at the bar, sent to the service. A second touch right after the first is left out. */
import { signal } from "@preact/signals";
import type { Row } from "../link/queue";
import { perform } from "../link/shop";
import type { Ticket } from "../wire.gen";
import { type Bump, bumpWords } from "./bumps";
import { titleOf } from "./cups/alike";
import type { Cell } from "./cups/cells";
import { cellAct } from "./waits/timers";

/** A second touch within this many ms is one finger bouncing, not a second wish. */
export const BOUNCE_MS = 300;

/** Lets an act through unless the same one, or any that moves rows, was let through just before. */
export class Bounce {
  private readonly last = new Map<string, number>();
  private lastMove = Number.NEGATIVE_INFINITY;

  constructor(private readonly time: () => number = () => performance.now()) {}

  /** `moves` tells that rows shift under the finger, so that the next touch may be meant for this one. */
  passes(act: string, moves: boolean): boolean {
    const at = this.time();
    const before = this.last.get(act) ?? Number.NEGATIVE_INFINITY;
    if (at - before < BOUNCE_MS || at - this.lastMove < BOUNCE_MS) return false;
    this.last.set(act, at);
    if (moves) this.lastMove = at;
    return true;
  }
}

const bounce = new Bounce();

/** What has been sent and not yet answered, so that a cell can show that it was touched. */
export const pending = signal<ReadonlySet<string>>(new Set());

async function sendOnce(name: string, moves: boolean, work: () => Promise<boolean>): Promise<void> {
  if (pending.value.has(name) || !bounce.passes(name, moves)) return;
  pending.value = new Set([...pending.value, name]);
  try {
    await work();
  } finally {
    pending.value = new Set([...pending.value].filter((one) => one !== name));
  }
}

/** The name under which a cell's act is pending. */
export function cellName(row: Row, cell: Cell): string {
  return `${row.drink.id}/${cell.station.id}`;
}

/** A cell that was done, or begun, by mistake is to do again. */
export function undoCell(row: Row, cell: Cell): Promise<void> {
  const reopen = cell.steps.map((step) => step.number);
  return sendOnce(cellName(row, cell), false, () =>
    perform("/api/drinks/work", { drinks: idsOf(row), reopen }, `${cell.station.name} to do again`),
  );
}

/**
 * Starts the cell's next timer, or finishes what is open in it: of all cups of the row at once, or of none. A cell that is
 * done is to do again.
 */
export function touchCell(row: Row, cell: Cell): Promise<void> {
  if (row.drink.state === "void" || cell.state === "none") return Promise.resolve();
  if (cell.state === "done") return undoCell(row, cell);
  const { finish, start } = cellAct(cell.steps, cell.states);
  const said = `${cell.station.name} ${start === null ? "done" : "started"}`;
  return sendOnce(cellName(row, cell), false, () =>
    perform("/api/drinks/work", { drinks: idsOf(row), finish, start }, said),
  );
}

/** Any other act of the bar that moves rows, sent once. */
export function act(name: string, path: string, said: string, body: unknown = {}): Promise<void> {
  return sendOnce(name, true, () => perform(path, body, said));
}

const idsOf = (row: Row): string[] => row.cups.map((cup) => cup.id);

/** The drink is made; of alike cups all of them. */
export function bumpDrink(row: Row): Promise<void> {
  if (row.drink.state === "void") return Promise.resolve();
  const said = `Bumped ${titleOf(row)} of ${row.ticket.number}`;
  return act(`bump ${row.drink.id}`, "/api/drinks/bump", said, { drinks: idsOf(row) });
}

/** All drinks of the ticket are made. */
export function bumpTicket(ticket: Ticket): Promise<void> {
  return act(`bump ${ticket.id}`, `/api/tickets/${ticket.id}/bump`, `Bumped number ${ticket.number}`);
}

/** What was bumped comes back to the sheet. */
export function recall(bump: Bump): Promise<void> {
  const drinks = bump.rows.map((row) => row.drink.id);
  const said = `Recalled ${bumpWords(bump)} of ${bump.ticket.number}`;
  return act(`recall ${drinks.join(" ")}`, "/api/drinks/recall", said, { drinks });
}

/** Takes a hand-off back: the number stands ready again, on every screen. */
export function takeBack(order: { readonly id: string; readonly number: number }): Promise<void> {
  const said = `Number ${order.number} is back, ready to be handed off`;
  return act(`take back ${order.id}`, `/api/tickets/${order.id}/take-back`, said);
}
