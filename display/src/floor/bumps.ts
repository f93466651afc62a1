/** What was bumped, as hands did it: a touch on a drink, on a row of alike cups, on a whole ticket. Pure. */
import { type Queue, type Row, rows } from "../link/queue";
import type { Ticket } from "../wire.gen";
import { counted } from "../words/words";

/** Drinks of one ticket that were bumped in one moment. */
export interface Bump {
  readonly ticket: Ticket;
  readonly at: number;
  readonly rows: readonly Row[];
}

/** Bumped drinks of the queue that can be recalled, by the touch that bumped them, newest first. */
export function bumps(queue: Queue): Bump[] {
  const found = new Map<string, { ticket: Ticket; at: number; rows: Row[] }>();
  for (const row of rows(queue)) {
    const at = row.drink.bumped_at;
    if (row.drink.state !== "made" || at == null) continue;
    const name = `${row.ticket.id}/${at}`;
    const bump = found.get(name) ?? { ticket: row.ticket, at, rows: [] };
    bump.rows.push(row);
    found.set(name, bump);
  }
  return [...found.values()].sort(
    (one, other) => other.at - one.at || Number(other.ticket.id) - Number(one.ticket.id),
  );
}

/** Bumps of one ticket put together, the ticket bumped last first. */
export function bumpsByTicket(list: readonly Bump[]): Bump[] {
  const found = new Map<string, Bump>();
  for (const bump of list) {
    const known = found.get(bump.ticket.id);
    found.set(bump.ticket.id, known ? { ...known, rows: [...known.rows, ...bump.rows] } : bump);
  }
  return [...found.values()];
}

/** What was bumped in a few words: a title, "3 × Large Taro", or how many differ. */
export function bumpWords(bump: Bump): string {
  const titles = new Set(bump.rows.map((row) => row.build.title));
  const first = bump.rows[0]?.build.title ?? "";
  if (bump.rows.length === 1) return first;
  if (titles.size === 1) return `${bump.rows.length} × ${first}`;
  const all = bump.rows.length === bump.ticket.drinks.filter((drink) => drink.state !== "void").length;
  return all ? `whole ticket, ${bump.rows.length} drinks` : counted(bump.rows.length, "drink");
}
