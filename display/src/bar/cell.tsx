/** A cell in the grid of the sheet: a touch works it. */
import type { JSX } from "preact";
import { cellName, pending, touchCell } from "../floor/acts";
import { CellBody } from "../floor/cups/cell";
import { type Cell, cellTimer, cellWords, showsTimer } from "../floor/cups/cells";
import { now } from "../link/clock";
import type { Row } from "../link/queue";
import { Heard } from "../parts/heard";

interface CellProps {
  readonly row: Row;
  readonly cell: Cell;
  readonly focusable: boolean;
  readonly onFocus: () => void;
}

export function SheetCell({ row, cell, focusable, onFocus }: CellProps): JSX.Element {
  const timer = showsTimer(cell) ? cellTimer(cell, now.value) : undefined;
  const waits = pending.value.has(cellName(row, cell)) ? " cell-pending" : "";
  return (
    <td
      role="gridcell"
      class={`cell cell-${cell.state}${timer ? ` cell-timer-${timer.reading.phase}` : ""}${waits}`}
      tabIndex={focusable ? 0 : -1}
      data-name={cell.station.name}
      onFocus={onFocus}
      onClick={() => void touchCell(row, cell)}
    >
      <Heard as={cellWords(cell, now.peek())}>
        <CellBody cell={cell} />
      </Heard>
    </td>
  );
}
