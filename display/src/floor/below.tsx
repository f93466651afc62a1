/** What does not fit on the sheet: how many drinks, how many for each station, and the next of them by name. */
import type { JSX } from "preact";
import type { Row } from "../link/queue";
import type { Station } from "../wire.gen";
import { counted } from "../words/words";
import { cupsOf, titleOf } from "./cups/alike";
import { aheadOf } from "./cups/cells";
import type { Below } from "./more";

interface BelowProps {
  readonly rows: readonly Row[];
  readonly stations: readonly Station[];
  readonly below: Below;
}

/** One drink on one line. */
function Next({ row }: { row: Row }): JSX.Element {
  return (
    <li>
      <b>{row.ticket.number}</b> {row.drink.state === "void" ? <s>{titleOf(row)}</s> : titleOf(row)}
      {row.build.words.length > 0 && <span> {row.build.words.join(", ")}</span>}
    </li>
  );
}

/** Covers what would be cut through, from `below.from` down. */
export function BelowSheet({ rows, stations, below }: BelowProps): JSX.Element {
  const drinks = cupsOf(rows);
  const ahead = aheadOf(rows, stations).filter((one) => one.drinks > 0);
  return (
    <div class="below" style={{ top: `${below.from}px` }} role="note">
      <p>
        <strong>{counted(drinks, "more drink")} below</strong>
        {ahead.map((one) => (
          <span key={one.station.id}>
            {one.station.name} <b>{one.drinks}</b>
          </span>
        ))}
      </p>
      <ul>
        {rows.slice(0, below.lines).map((row) => (
          <Next key={row.drink.id} row={row} />
        ))}
      </ul>
    </div>
  );
}
