/** The numbers that are being made, on the hand-off and on the customers' board alike. */
import type { JSX } from "preact";
import { CallName } from "../parts/name";
import type { Ticket } from "../wire.gen";

/** Columns for numbers being made: five under each other fit on every screen, names and all. */
export function makingColumns(count: number): number {
  return Math.max(3, Math.ceil(count / 5));
}

/** `none` is said where nothing is being made. */
export function BeingMade({ tickets, none }: { tickets: readonly Ticket[]; none: string }): JSX.Element {
  const making = tickets.filter((ticket) => ticket.state !== "ready");
  return (
    <section class="board-making" aria-labelledby="making">
      <h2 id="making">Being made</h2>
      {making.length === 0 ? (
        <p class="board-none">{none}</p>
      ) : (
        <ul style={{ "--columns": makingColumns(making.length) }}>
          {making.map((ticket) => (
            <li key={ticket.id} class="making">
              <span class="board-number" style={{ "--digits": String(ticket.number).length }}>
                {ticket.number}
              </span>
              <CallName of={ticket.name} class="board-name" />
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
