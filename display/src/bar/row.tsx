/** A row of the sheet: one drink, read across. */
import type { ComponentChildren, JSX } from "preact";
import { bumpDrink } from "../floor/acts";
import { titleOf } from "../floor/cups/alike";
import { cellsOf } from "../floor/cups/cells";
import { same, sameWords, sortOf } from "../floor/cups/same";
import { doneEverywhere } from "../floor/cups/where";
import { AlteredMark } from "../floor/struck";
import type { Row } from "../link/queue";
import { Heard } from "../parts/heard";
import { Tick } from "../parts/tally";
import type { Station } from "../wire.gen";
import { capital } from "../words/words";
import { SheetCell } from "./cell";
import type { Place } from "./grid";

/** Says on a Bump that nothing is left but to touch it. */
export function DoneMark(): JSX.Element {
  return (
    <span class="bump-done">
      <Tick /> done
    </span>
  );
}

/** What a row's head says to those who hear it. */
export function headWords(row: Row): string {
  const alike = same.value.get(sortOf(row));
  const said = [titleOf(row), row.build.words.join(", "), row.drink.note].filter((part) => part !== "");
  if (alike) said.push(capital(sameWords(alike, row.ticket.number)));
  return `${said.join(". ")}. Open for the whole build, allergens and cautions.`;
}

/** How many, title, what bends the drink, the note, and whose drinks are the same. */
export function Head({ row }: { row: Row }): JSX.Element {
  const alike = same.value.get(sortOf(row));
  return (
    <>
      {row.cups.length > 1 && <span class="head-count">{row.cups.length} ×</span>}
      <span class="head-title">{row.build.title}</span>
      {row.build.words.length > 0 && (
        <span class="head-words">
          {row.build.words.map((word) => (
            <span key={word} class="head-word">
              {word}
            </span>
          ))}
        </span>
      )}
      <AlteredMark drink={row.drink} />
      {row.drink.note && <span class="head-note">“{row.drink.note}”</span>}
      {alike && (
        <span class="head-same">
          {alike.letter && <b class="same-letter">{alike.letter}</b>} {sameWords(alike, row.ticket.number)}
        </span>
      )}
      {row.cups.length > 1 && row.drink.state !== "void" && (
        <span class="head-each">amounts are for one cup</span>
      )}
    </>
  );
}

/**
 * A row never gets lower while it is on the sheet: what is below must not move up under a finger. (The height of a table
 * row is a least height.) Only a screen that is fitted anew, or turned, begins anew: see `forgetHeights`.
 */
function keepHeight(row: HTMLTableRowElement | null): void {
  if (!row) return;
  const watcher = new ResizeObserver(() => {
    if (!row.isConnected) watcher.disconnect();
    const high = row.getBoundingClientRect().height;
    if (high > Number.parseFloat(row.style.getPropertyValue("--kept") || "0")) {
      row.style.setProperty("--kept", `${high}px`);
    }
  });
  watcher.observe(row);
}

/** Lets every row of the sheet be as low as it is at the sizes that hold now. */
export function forgetHeights(sheet: Element): void {
  for (const row of sheet.querySelectorAll<HTMLElement>(".row")) row.style.removeProperty("--kept");
}

interface RowProps {
  readonly row: Row;
  readonly place: number;
  readonly stations: readonly Station[];
  readonly bracket: ComponentChildren;
  readonly focus: Place | null;
  readonly onFocus: (place: Place) => void;
  readonly onDetails: (row: Row) => void;
}

/** One drink's row. `place` is its place in the queue, from 1. */
export function DrinkRow({
  row,
  place,
  stations,
  bracket,
  focus,
  onFocus,
  onDetails,
}: RowProps): JSX.Element {
  const id = row.drink.id;
  const here = (column: number): boolean => focus?.drink === id && focus.column === column;
  const at = (column: number) => () => onFocus({ drink: id, column });
  const done = doneEverywhere(row);
  const label = `Drink ${place}, number ${row.ticket.number}: ${titleOf(row)}`;
  if (row.drink.state === "void") {
    return (
      <tr role="row" class="row row-void" data-drink={id} aria-label={`${label}, void`}>
        {bracket}
        <td
          role="gridcell"
          class="head"
          colSpan={stations.length + 2}
          tabIndex={here(0) ? 0 : -1}
          onFocus={at(0)}
        >
          <strong>void</strong> <s>{titleOf(row)}</s>
        </td>
      </tr>
    );
  }
  return (
    <tr
      role="row"
      class={done ? "row row-done" : "row"}
      data-drink={id}
      aria-label={done ? `${label}, done` : label}
      ref={keepHeight}
    >
      {bracket}
      <td
        role="gridcell"
        class="head"
        tabIndex={here(0) ? 0 : -1}
        onFocus={at(0)}
        onClick={() => onDetails(row)}
      >
        <Heard as={headWords(row)}>
          <Head row={row} />
        </Heard>
      </td>
      {cellsOf(row, stations).map((cell, index) => (
        <SheetCell
          key={cell.station.id}
          row={row}
          cell={cell}
          focusable={here(index + 1)}
          onFocus={at(index + 1)}
        />
      ))}
      <td role="gridcell" class="bump-cell">
        <button
          type="button"
          class="bump"
          tabIndex={here(stations.length + 1) ? 0 : -1}
          onFocus={at(stations.length + 1)}
          aria-label={`${done ? "Done, bump" : "Bump"} ${titleOf(row)} of number ${row.ticket.number}`}
          onClick={() => void bumpDrink(row)}
        >
          {done && <DoneMark />} Bump{row.cups.length > 1 && ` ${row.cups.length}`}
        </button>
      </td>
    </tr>
  );
}
