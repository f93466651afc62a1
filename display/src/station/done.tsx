/** What was done here last: touched by mistake, it is to do again with one touch more. */
import type { JSX } from "preact";
import { undoCell } from "../bar/acts";
import { titleOf } from "../bar/alike";
import { BumpedList } from "../bar/bumped";
import { type Cell, doneLast } from "../bar/sheet";
import type { Row } from "../queue";

/** As many stand in the strip. */
const SHOWN = 3;

export function Done({ tasks }: { tasks: readonly { row: Row; cell: Cell }[] }): JSX.Element {
  const done = doneLast(tasks).slice(0, SHOWN);
  return (
    <section class="bumped" aria-label="Done here last">
      <h2>Done</h2>
      {done.length === 0 && <p class="bumped-none">Nothing yet.</p>}
      <ul>
        {done.map(({ row, cell }) => (
          <li key={row.drink.id}>
            <button
              type="button"
              class="recall"
              aria-label={`${titleOf(row)} of number ${row.ticket.number} to do again at ${cell.station.name}`}
              onClick={() => void undoCell(row, cell)}
            >
              <span class="recall-number">{row.ticket.number}</span>
              <span class="recall-title">{titleOf(row)}</span>
              <span class="recall-word">not done</span>
            </button>
          </li>
        ))}
      </ul>
      <BumpedList />
    </section>
  );
}
