/** What ties the rows of one ticket together at the left: the number called, the name, the wait. */
import type { JSX } from "preact";
import { now } from "../clock";
import { CallName } from "../parts/name";
import { Tick } from "../parts/tally";
import type { Row } from "../queue";
import { lateness } from "../timers";
import type { Ticket } from "../wire.gen";
import { counted, minutes } from "../words";
import { bumpTicket } from "./acts";
import { cupsOf } from "./alike";

const WORDS = { fine: "", soon: "soon", late: "late" } as const;

/** How long a ticket has waited, with a word once that matters. */
export function Wait({ rungAt }: { rungAt: number }): JSX.Element {
  const late = lateness(rungAt, now.value);
  return (
    <span class={`wait wait-${late}`}>
      <span class="wait-figure">{minutes((now.value - rungAt) / 1000)}</span>
      {WORDS[late] && <strong class="wait-word">{WORDS[late]}</strong>}
    </span>
  );
}

interface BracketProps {
  readonly ticket: Ticket;
  readonly rows: readonly Row[];
}

/** The bracket of a ticket, over all its rows. */
export function Bracket({ ticket, rows }: BracketProps): JSX.Element {
  const late = lateness(ticket.rung_at, now.value);
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
            aria-label={`Bump number ${ticket.number}, all ${counted(open, "drink")}`}
            onClick={() => void bumpTicket(ticket)}
          >
            Bump {open}
          </button>
        )}
      </div>
    </th>
  );
}
