/** The table of the bar sheet: a grid with one focus, worked by touch, by keys, or by a bump bar. */
import type { JSX } from "preact";
import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import { bumpDrink, bumpTicket, touchCell } from "../floor/acts";
import { BelowSheet } from "../floor/below";
import { turnApart } from "../floor/cups/alike";
import { byTicket, cellsOf } from "../floor/cups/cells";
import { reveal, useBelow } from "../floor/more";
import type { Row } from "../link/queue";
import { fitted } from "../screen/fit";
import type { Station } from "../wire.gen";
import { legendShown, noteKey, turnLegend } from "./alive";
import { Bracket } from "./bracket";
import { move, type Place, settle } from "./grid";
import { keyOf, plainKey } from "./keys";
import { MarksKey } from "./markskey";
import { DrinkRow, forgetHeights } from "./row";
import { columnWidths } from "./widths";

/** Rows past these are only counted: nobody builds forty drinks ahead. */
const MOST_ROWS = 40;

/** What the letters do to the row that the focus is in. */
const ROW_KEYS: Readonly<Record<string, (row: Row) => void>> = {
  b: (row) => void bumpDrink(row),
  t: (row) => void bumpTicket(row.ticket),
  s: turnApart,
};

interface SheetProps {
  readonly rows: readonly Row[];
  readonly stations: readonly Station[];
  readonly onDetails: (row: Row) => void;
}

function Columns({ rows, stations }: { rows: readonly Row[]; stations: readonly Station[] }): JSX.Element {
  const widths = columnWidths(rows, stations);
  return (
    <colgroup>
      <col class="col-bracket" />
      <col class="col-head" />
      {stations.map((station, index) => (
        <col key={station.id} style={{ width: widths[index] ?? "auto" }} />
      ))}
      <col class="col-bump" />
    </colgroup>
  );
}

/** What the keys do while the sheet has the focus, and what the marks stand for. */
export function Legend(): JSX.Element {
  const keys: readonly (readonly [string, string])[] = [
    ["Arrows", "move"],
    ["Enter", "do or undo"],
    ["B", "bump"],
    ["T", "bump ticket"],
    ["R", "recall last"],
    ["L", "recall list"],
    ["S", "split 2 ×"],
    ["1–9", "row"],
    ["K", "keys"],
  ];
  return (
    <p class="legend">
      {keys.map(([key, does]) => (
        <span key={key}>
          <kbd>{key}</kbd> {does}
        </span>
      ))}
      <MarksKey />
    </p>
  );
}

/** Shows what the keys do, or hides it. */
export function LegendSwitch(): JSX.Element {
  return (
    <button type="button" class="plain keys-switch" aria-pressed={legendShown()} onClick={turnLegend}>
      Keys
    </button>
  );
}

export function Sheet({ rows, stations, onDetails }: SheetProps): JSX.Element {
  const scroller = useRef<HTMLDivElement>(null);
  const [focus, setFocus] = useState<Place | null>(null);
  const shown = rows.slice(0, MOST_ROWS);
  const drinks = shown.map((row) => row.drink.id);
  const before = useRef<readonly string[]>(drinks);
  const held = useRef(false);
  const place = settle(focus, before.current, drinks) ?? (drinks[0] ? { drink: drinks[0], column: 0 } : null);
  const below = useBelow(scroller, rows);
  const last = stations.length + 1;

  const focusOn = (target: Place): void => {
    const row = scroller.current?.querySelector(`[data-drink="${CSS.escape(target.drink)}"]`);
    const cells = row?.querySelectorAll<HTMLElement>('[role="gridcell"]');
    const cell = cells?.[Math.min(target.column, (cells.length ?? 1) - 1)];
    const stop = cell?.querySelector<HTMLElement>("button") ?? cell;
    stop?.focus({ preventScroll: true });
    if (scroller.current && row) reveal(scroller.current, row);
  };

  useLayoutEffect(() => {
    const lost = held.current && !scroller.current?.contains(document.activeElement);
    // A row that was bumped took the focus with it; the row now in its place gets it.
    if (lost && place && document.activeElement === document.body) focusOn(place);
    before.current = drinks;
  });
  useLayoutEffect(() => {
    if (scroller.current) forgetHeights(scroller.current);
  }, [fitted.value]);
  useEffect(() => {
    if (place && (place.drink !== focus?.drink || place.column !== focus?.column)) setFocus(place);
  });

  const onKeyDown = (event: KeyboardEvent): void => {
    const key = keyOf(event);
    if (key === undefined) return;
    const row = shown.find((one) => one.drink.id === place?.drink);
    const next = move(place, event.key, drinks, last + 1);
    const enters = row !== undefined && (key === "Enter" || key === " ");
    if (next || enters) noteKey();
    // The bracket's and the row's own buttons answer to these keys by themselves.
    if (enters && event.target instanceof HTMLButtonElement) return;
    if (next) {
      setFocus(next);
      focusOn(next);
    } else if (enters) {
      const cell = cellsOf(row, stations)[(place?.column ?? 0) - 1];
      if (cell) void touchCell(row, cell);
      else onDetails(row);
    } else if (row && ROW_KEYS[key]) {
      ROW_KEYS[key](row);
      noteKey();
    } else if (!plainKey(key)) return;
    event.preventDefault();
  };

  const hidden = new Set(below.drinks);
  const under = rows.filter((row, index) => index >= MOST_ROWS || hidden.has(row.drink.id));
  return (
    <div class={legendShown() ? "sheet-frame frame-keys" : "sheet-frame"}>
      <div
        class="sheet-scroll"
        ref={scroller}
        onFocusIn={() => {
          held.current = true;
        }}
        onFocusOut={(event) => {
          // Focus that went somewhere else was let go; focus that went nowhere was lost with its row.
          if (event.relatedTarget) held.current = false;
        }}
      >
        <table
          class="sheet"
          data-keys
          role="grid"
          aria-label="Bar sheet"
          aria-rowcount={rows.length + 1}
          onKeyDown={onKeyDown}
        >
          <Columns rows={shown} stations={stations} />
          <thead>
            <tr role="row">
              <th role="columnheader" scope="col">
                No.
              </th>
              <th role="columnheader" scope="col">
                Drink
              </th>
              {stations.map((station) => (
                <th key={station.id} role="columnheader" scope="col">
                  {station.name}
                </th>
              ))}
              <th role="columnheader" scope="col">
                <span class="unseen">Bump</span>
              </th>
            </tr>
          </thead>
          {byTicket(shown).map((group) => {
            const ticket = group[0]?.ticket;
            if (!ticket) return null;
            return (
              <tbody key={ticket.id} role="rowgroup" class="ticket">
                {group.map((row, index) => (
                  <DrinkRow
                    key={row.drink.id}
                    row={row}
                    place={shown.indexOf(row) + 1}
                    stations={stations}
                    bracket={index === 0 ? <Bracket ticket={ticket} rows={group} /> : null}
                    focus={place}
                    onFocus={setFocus}
                    onDetails={onDetails}
                  />
                ))}
              </tbody>
            );
          })}
        </table>
      </div>
      {under.length > 0 && <BelowSheet rows={under} stations={stations} below={below} />}
      {legendShown() && <Legend />}
    </div>
  );
}
