/** What was done here last: touched by mistake, it is to do again with one touch more. */
import type { JSX } from "preact";
import { undoCell } from "../floor/acts";
import { BumpedList, RecallButton } from "../floor/bumped";
import { bumpWords } from "../floor/bumps";
import { titleOf } from "../floor/cups/alike";
import type { Lately } from "./tasks";

/** As many stand in the strip. */
const SHOWN = 3;

function DoneHere({ one }: { one: Lately }): JSX.Element {
  if (one.bump) return <RecallButton bump={one.bump} words={bumpWords(one.bump)} />;
  const { row, cell } = one;
  return (
    <button
      type="button"
      class="recall"
      aria-label={`Number ${row.ticket.number} ${titleOf(row)}, not done at ${cell.station.name}`}
      onClick={() => void undoCell(row, cell)}
    >
      <span class="recall-number">{row.ticket.number}</span> <span class="recall-title">{titleOf(row)}</span>{" "}
      <span class="recall-word">not done</span>
    </button>
  );
}

export function Done({ list }: { list: readonly Lately[] }): JSX.Element {
  return (
    <section class="bumped" aria-label="Done here last">
      <h2>Done</h2>
      {list.length === 0 && <p class="bumped-none">Nothing yet.</p>}
      <ul>
        {list.slice(0, SHOWN).map((one) => (
          <li key={one.bump ? `${one.bump.ticket.id}/${one.at}` : one.row.drink.id}>
            <DoneHere one={one} />
          </li>
        ))}
      </ul>
      <BumpedList />
    </section>
  );
}
