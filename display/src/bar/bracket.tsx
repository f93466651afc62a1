/** What ties the rows of one ticket together at the left: the number called, the name, the wait. */
import type { JSX } from "preact";
import { bumpTicket } from "../floor/acts";
import { cupsOf } from "../floor/cups/alike";
import { lateness } from "../floor/waits/timers";
import { Wait } from "../floor/waits/wait";
import { now } from "../link/clock";
import type { Row } from "../link/queue";
import { floor } from "../link/shop";
import { CallName } from "../parts/name";
import { Tick } from "../parts/tally";
import type { Ticket } from "../wire.gen";
import { counted } from "../words/words";

interface BracketProps {
  readonly ticket: Ticket;
  readonly rows: readonly Row[];
}

/** The bracket of a ticket, over all its rows. */
export function Bracket({ ticket, rows }: BracketProps): JSX.Element {
  const late = lateness(ticket.rung_at, now.value, floor.value);
  const open = cupsOf(rows);
  const several = rows.filter((row) => row.drink.state !== "void").length > 1;
  const made = ticket.drinks.filter((drink) => drink.state === "made").length;
  return (
    <th role="rowheader" scope="rowgroup" rowSpan={rows.length} class={`bracket bracket-${late}`}>
      <div class="bracket-inner">
        <span class="bracket-number">{ticket.number}</span>
        <Wait rungAt={ticket.rung_at} />
        <CallName of={ticket.name} class="bracket-name" />
        {made > 0 && (
          <span class="bracket-made">
            {made}/{ticket.drinks.length} <Tick />
            <span class="unseen">made</span>
          </span>
        )}
        {several && (
          <button
            type="button"
            class="bump bump-ticket"
            aria-label={`Bump ${counted(open, "drink")}, all of number ${ticket.number}`}
            onClick={() => void bumpTicket(ticket)}
          >
            Bump {open}
          </button>
        )}
      </div>
    </th>
  );
}
