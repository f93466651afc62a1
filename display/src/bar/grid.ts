/** Moving about the sheet with keys. Pure: a place and a key give a place. */

/** A place on the sheet: a row by its drink's id, and a column from 0 (the drink's head). */
export interface Place {
  readonly drink: string;
  readonly column: number;
}

/** Where `key` leads from `place`, over rows named by `drinks` and `columns` columns; null: nowhere. */
export function move(
  place: Place | null,
  key: string,
  drinks: readonly string[],
  columns: number,
): Place | null {
  const first = drinks[0];
  if (first === undefined) return null;
  const row = place ? drinks.indexOf(place.drink) : -1;
  const here = place && row >= 0 ? place : { drink: first, column: 0 };
  const at = Math.max(0, row);
  const rowAt = (index: number): string => drinks[Math.min(drinks.length - 1, Math.max(0, index))] ?? first;
  switch (key) {
    case "ArrowUp":
      return { ...here, drink: rowAt(at - 1) };
    case "ArrowDown":
      return { ...here, drink: rowAt(at + 1) };
    case "ArrowLeft":
      return { ...here, column: Math.max(0, here.column - 1) };
    case "ArrowRight":
      return { ...here, column: Math.min(columns - 1, here.column + 1) };
    case "Home":
      return { ...here, column: 0 };
    case "End":
      return { ...here, column: columns - 1 };
    case "PageUp":
      return { ...here, drink: rowAt(at - 5) };
    case "PageDown":
      return { ...here, drink: rowAt(at + 5) };
    default:
      return /^[1-9]$/.test(key) ? { ...here, drink: rowAt(Number(key) - 1) } : null;
  }
}

/** The place to be at once its row has left: the row that took its place in order, same column. */
export function settle(
  place: Place | null,
  before: readonly string[],
  after: readonly string[],
): Place | null {
  if (!place || after.includes(place.drink)) return place;
  const was = before.indexOf(place.drink);
  const next = after[Math.min(after.length - 1, Math.max(0, was))];
  return next === undefined ? null : { ...place, drink: next };
}
