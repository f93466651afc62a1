/** A row of the sheet: one drink, read across. */
import type { ComponentChildren, JSX } from "preact";
import type { Row } from "../queue";
import type { Station } from "../wire.gen";
import { bumpDrink } from "./acts";
import { titleOf } from "./alike";
import { SheetCell } from "./cell";
import type { Place } from "./grid";
import { cellsOf } from "./sheet";
import { AlteredMark } from "./struck";

/** How many, title, what bends the drink, and the note. */
export function Head({ row }: { row: Row }): JSX.Element {
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
      {row.cups.length > 1 && row.drink.state !== "void" && (
        <span class="head-each">amounts are for one cup</span>
      )}
    </>
  );
}

/**
 * A row never gets lower while it is on the sheet: what is below must not move up under a finger. (The height of a table
 * row is a least height.)
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
    <tr role="row" class="row" data-drink={id} aria-label={label} ref={keepHeight}>
      {bracket}
      <td
        role="gridcell"
        class="head"
        tabIndex={here(0) ? 0 : -1}
        onFocus={at(0)}
        onClick={() => onDetails(row)}
        aria-label={`${titleOf(row)}. ${row.build.words.join(", ")}. ${row.drink.note} Open for the whole build, allergens and cautions.`}
      >
        <Head row={row} />
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
          aria-label={`Bump ${titleOf(row)} of number ${row.ticket.number}`}
          onClick={() => void bumpDrink(row)}
        >
          Bump{row.cups.length > 1 && ` ${row.cups.length}`}
        </button>
      </td>
    </tr>
  );
}
