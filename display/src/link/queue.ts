/**
 * The queue as a display holds it: pure, and the same whether it came whole or in pieces.
 * A change fits only on the position it was made for; anything else asks for the rest.
 */
import type { Build, Change, HandedOff, QueueDrink, Snapshot, Ticket } from "../wire.gen";

/** A cup that was struck off, changed or is made again under the hands; `now` is null for one struck off. */
export interface Altered {
  readonly key: string;
  readonly number: number;
  readonly name: string;
  readonly was: string;
  readonly now: string | null;
  /** Why it is made again; empty where it is only another. */
  readonly again: string;
}

/** The queue at one position of the journal that `store` names. Tickets are in the order they were rung in. */
export interface Queue {
  readonly store: string;
  readonly position: number;
  readonly book: string;
  readonly tickets: readonly Ticket[];
  readonly builds: Readonly<Record<string, Build>>;
  readonly soldOut: readonly string[];
  /** Tickets handed off last today, newest first: a hand-off by mistake can be taken back. */
  readonly handed: readonly HandedOff[];
  /** Tickets that were voided under the hands, as they last stood, newest last. */
  readonly struck: readonly Ticket[];
  /** Cups that became something else under the hands, newest last. */
  readonly altered: readonly Altered[];
}

/** As many voided tickets, and as many altered cups, are told of at once. */
const MOST_STRUCK = 4;

/** What applying a change came to: a queue, or the word that pieces between are missing. */
export type Applied = { readonly queue: Queue; readonly gap: false } | { readonly gap: true };

/** One drink in queue order with all that a row shows: its ticket, its build, and the cups it stands for. */
export interface Row {
  readonly ticket: Ticket;
  readonly drink: QueueDrink;
  readonly build: Build;
  /** The cups of the row, `drink` the first of them; more than one where alike cups are put together. */
  readonly cups: readonly QueueDrink[];
}

const byAge = (one: Ticket, other: Ticket): number =>
  one.rung_at - other.rung_at || Number(one.id) - Number(other.id) || (one.id < other.id ? -1 : 1);

function neededBuilds(tickets: readonly Ticket[], known: Record<string, Build>): Record<string, Build> {
  const needed: Record<string, Build> = {};
  for (const ticket of tickets) {
    for (const drink of ticket.drinks) {
      const build = known[drink.build];
      if (build) needed[drink.build] = build;
    }
  }
  return needed;
}

/** The queue that a snapshot describes. */
export function fromSnapshot(snapshot: Snapshot): Queue {
  const tickets = [...snapshot.tickets].sort(byAge);
  return {
    store: snapshot.store,
    position: snapshot.position,
    book: snapshot.book,
    tickets,
    builds: neededBuilds(tickets, snapshot.builds),
    soldOut: [...snapshot.sold_out].sort(),
    handed: snapshot.handed,
    struck: [],
    altered: [],
  };
}

type Builds = Readonly<Record<string, Build>>;

function inWords(drink: QueueDrink, builds: Builds): string {
  const build = builds[drink.build];
  const said = build ? [build.title, ...build.words] : ["a drink"];
  return [...said, ...(drink.note === "" ? [] : [`“${drink.note}”`])].join(", ");
}

function alteration(was: QueueDrink, now: QueueDrink): "void" | "again" | "another" | null {
  if (now.state === "void") return was.state === "void" ? null : "void";
  if (now.remade_at !== was.remade_at) return "again";
  return now.changed_at === was.changed_at ? null : "another";
}

/** What of the tickets held became something else with this change. */
function alterations(held: readonly Ticket[], change: Change, builds: Builds): Altered[] {
  return change.tickets.flatMap((ticket) => {
    const before = held.find((one) => one.id === ticket.id);
    return ticket.drinks.flatMap((drink) => {
      const was = before?.drinks.find((one) => one.id === drink.id);
      const what = was && alteration(was, drink);
      if (!what) return [];
      return {
        key: `${drink.id} ${change.position}`,
        number: ticket.number,
        name: ticket.name,
        was: inWords(was, builds),
        now: what === "void" ? null : inWords(drink, builds),
        again: what === "again" ? drink.remade_why : "",
      };
    });
  });
}

/**
 * The queue after a change. A change already contained in ours is left out (a resend costs nothing);
 * one that starts anywhere but at our position is a gap, and the caller asks for the rest. So is one of
 * another store, where a position means something else.
 */
export function applyChange(queue: Queue, change: Change): Applied {
  if (change.store !== queue.store) return { gap: true };
  if (change.position <= queue.position) return { queue, gap: false };
  if (change.after !== queue.position) return { gap: true };
  const replaced = new Set([...change.gone, ...change.tickets.map((ticket) => ticket.id)]);
  const kept = queue.tickets.filter((ticket) => !replaced.has(ticket.id));
  const tickets = [...kept, ...change.tickets].sort(byAge);
  const known = { ...queue.builds, ...change.builds };
  const altered = alterations(queue.tickets, change, known);
  const struck = queue.tickets.filter((ticket) => change.struck.includes(ticket.id));
  return {
    gap: false,
    queue: {
      store: queue.store,
      position: change.position,
      book: change.book ?? queue.book,
      tickets,
      builds: neededBuilds([...tickets, ...queue.struck, ...struck], known),
      soldOut: change.sold_out ? [...change.sold_out].sort() : queue.soldOut,
      handed: change.handed ?? queue.handed,
      struck: struck.length > 0 ? [...queue.struck, ...struck].slice(-MOST_STRUCK) : queue.struck,
      altered: altered.length > 0 ? [...queue.altered, ...altered].slice(-MOST_STRUCK) : queue.altered,
    },
  };
}

/** Every drink of the queue whose build is known, in queue order. */
export function rows(queue: Queue): Row[] {
  return queue.tickets.flatMap((ticket) =>
    ticket.drinks.flatMap((drink) => {
      const build = queue.builds[drink.build];
      return build ? [{ ticket, drink, build, cups: [drink] }] : [];
    }),
  );
}

/** The rows still to be worked at the bar: not made; a void drink stays, struck, while its ticket is open. */
export function openRows(queue: Queue): Row[] {
  return rows(queue).filter(({ ticket, drink }) => ticket.state !== "ready" && drink.state !== "made");
}
