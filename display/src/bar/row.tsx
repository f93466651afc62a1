/** A row of the sheet: one drink, read across. */
import type { ComponentChildren, JSX } from "preact";
import { bumpDrink } from "../floor/acts";
import { titleOf } from "../floor/cups/alike";
import { cellsOf } from "../floor/cups/cells";
import { DoneMark, Head, headWords } from "../floor/cups/head";
import { doneEverywhere } from "../floor/cups/where";
import type { Row } from "../link/queue";
import { Heard } from "../parts/heard";
import type { Station } from "../wire.gen";
import { SheetCell } from "./cell";
import type { Place } from "./grid";

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
