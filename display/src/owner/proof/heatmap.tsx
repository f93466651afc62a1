/** Drinks down, modifiers across: how far off a build can be and what it asks of hands, in one hue with the figure in each cell. */
import type { JSX } from "preact";
import { useRef, useState } from "preact/hooks";
import type { Proof } from "../../wire.gen";
import { capital } from "../../words/words";
import {
  cellClass,
  cellFigure,
  cellValue,
  cellWords,
  columnGroups,
  heatRows,
  legend,
  VIEW_WORDS,
  VIEWS,
  type View,
} from "./heat";

interface Place {
  readonly row: number;
  readonly column: number;
}

const MOVES: Readonly<Record<string, readonly [number, number]>> = {
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
};

/** The next cell that has something in it, from `place` in one direction; `place` itself when there is none. */
export function nextCell(
  filled: (row: number, column: number) => boolean,
  place: Place,
  [down, right]: readonly [number, number],
  rows: number,
  columns: number,
): Place {
  let { row, column } = place;
  for (;;) {
    row += down;
    column += right;
    if (row < 0 || column < 0 || row >= rows || column >= columns) return place;
    if (filled(row, column)) return { row, column };
  }
}

/** The first cell that has something in it, row by row; the corner when there is none. */
export function firstCell(
  filled: (row: number, column: number) => boolean,
  rows: number,
  columns: number,
): Place {
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      if (filled(row, column)) return { row, column };
    }
  }
  return { row: 0, column: 0 };
}

interface MapProps {
  readonly proof: Proof;
  /** Asked to show the worst cases of a drink, by its id. */
  readonly onDrink: (drink: string) => void;
}

export function HeatMap({ proof, onDrink }: MapProps): JSX.Element {
  const [shown, setShown] = useState<View>("worst");
  const [picked, setPlace] = useState<Place>({ row: 0, column: 0 });
  const table = useRef<HTMLTableElement>(null);
  const rows = heatRows(proof);
  const filled = (row: number, column: number): boolean => rows[row]?.cells[column] !== undefined;
  // The table is one stop of the Tab key, so some cell that is there must be it.
  const place = filled(picked.row, picked.column)
    ? picked
    : firstCell(filled, rows.length, proof.columns.length);
  const chosen = rows[place.row]?.cells[place.column];
  const onKey = (event: KeyboardEvent): void => {
    const move = MOVES[event.key];
    if (!move) return;
    event.preventDefault();
    const next = nextCell(filled, place, move, rows.length, proof.columns.length);
    setPlace(next);
    table.current?.querySelector<HTMLButtonElement>(`[data-place="${next.row},${next.column}"]`)?.focus();
  };
  return (
    <div class="heat">
      <div class="heat-head">
        <div class="buttons" role="group" aria-label="What is shown">
          {VIEWS.map(([one, words]) => (
            <button key={one} type="button" aria-pressed={shown === one} onClick={() => setShown(one)}>
              {words}
            </button>
          ))}
        </div>
        <ul class="heat-legend" aria-label={VIEW_WORDS[shown]}>
          {legend(proof.tolerance_pct, shown).map((words, step) => (
            <li key={words}>
              <span class={`heat-${step}`} aria-hidden="true" />
              {words}
            </li>
          ))}
          {(shown === "worst" || shown === "mean") && (
            <li>
              <span class="heat-0 heat-past" aria-hidden="true" />
              past the tolerance
            </li>
          )}
          <li>
            <span class="heat-refused" aria-hidden="true">
              ×
            </span>
            none can be made
          </li>
          <li>no field: not on offer</li>
        </ul>
      </div>
      <div class="heat-told">
        <p role="status">
          {chosen
            ? cellWords(rows[place.row]?.name ?? "", chosen)
            : "Touch a cell, or go from cell to cell with the arrow keys."}
        </p>
        {chosen && (
          <button type="button" class="plain" onClick={() => onDrink(rows[place.row]?.id ?? "")}>
            Its worst cases
          </button>
        )}
      </div>
      <div class="scroll-x heat-scroll">
        {/* The arrow keys move between the buttons of the table, which are its interactive parts. */}
        <table ref={table} class="heat-map" onKeyDown={onKey}>
          <caption class="unseen">{VIEW_WORDS[shown]}, by drink and modifier</caption>
          <thead>
            <tr class="heat-groups">
              <td class="heat-corner" />
              {columnGroups(proof.columns).map((group) => (
                <th key={group.modifier} scope="colgroup" colSpan={group.columns.length}>
                  {capital(group.modifier)}
                </th>
              ))}
            </tr>
            <tr class="heat-names">
              <td class="heat-corner" />
              {proof.columns.map((column) => (
                <th key={`${column.modifier}${column.value}`} scope="col" class="heat-column">
                  <span>{column.name}</span>
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((row, down) => (
              <tr key={row.id}>
                <th scope="row">{row.name}</th>
                {row.cells.map((cell, right) => {
                  if (!cell) return <td key={right} class="heat-none" />;
                  const value = cellValue(cell, shown);
                  const here = place.row === down && place.column === right;
                  const figure = cell.built === 0 ? "×" : cellFigure(value);
                  return (
                    <td key={right}>
                      <button
                        type="button"
                        data-place={`${down},${right}`}
                        class={cellClass(cell, value, proof.tolerance_pct, shown)}
                        aria-label={`${figure}: ${cellWords(row.name, cell)}`}
                        aria-pressed={here}
                        tabIndex={here ? 0 : -1}
                        onClick={() => setPlace({ row: down, column: right })}
                      >
                        {figure}
                      </button>
                    </td>
                  );
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </div>
  );
}
