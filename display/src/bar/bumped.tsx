/** Drinks bumped last, each to be brought back with one touch. */
import type { JSX } from "preact";
import type { Row } from "../queue";
import { recallDrink } from "./acts";

export function Bumped({ rows }: { rows: readonly Row[] }): JSX.Element {
  return (
    <section class="bumped" aria-label="Bumped last">
      <h2>Bumped</h2>
      {rows.length === 0 ? (
        <p class="bumped-none">Nothing to recall.</p>
      ) : (
        <ul>
          {rows.map((row) => (
            <li key={row.drink.id}>
              <button
                type="button"
                class="recall"
                aria-label={`Recall ${row.build.title} of number ${row.ticket.number}`}
                onClick={() => void recallDrink(row)}
              >
                <span class="recall-number">{row.ticket.number}</span>
                <span class="recall-title">{row.build.title}</span>
                <span class="recall-word">recall</span>
              </button>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
