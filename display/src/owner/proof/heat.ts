/** The heat map's one hue: from paper to deep blue, in few steps, with the figure always in the cell. Pure. */
import type { HeatCell, HeatColumn, Proof } from "../../wire.gen";

/** How many steps the scale has, the first being "no error to speak of". */
export const STEPS = 6;

/** Where the steps end, as shares of the book's tolerance: two within it, then two past it; the last has no end. */
const ENDS: readonly number[] = [0.5, 1, 2, 5];

/** An error in per cent that is read as none. */
const NONE_PCT = 0.05;

/** The step of an error in per cent, 0 to STEPS − 1; from step 3 on it is past the tolerance. */
export function shade(pct: number, tolerance: number): number {
  if (!(pct >= NONE_PCT) || !(tolerance > 0)) return 0;
  const step = ENDS.findIndex((end) => pct <= end * tolerance);
  return step < 0 ? STEPS - 1 : step + 1;
}

/** A cell's look: its hue, and a mark in its corner when it is past the tolerance. */
export function cellClass(cell: HeatCell, pct: number, tolerance: number): string {
  if (cell.built === 0) return "heat-refused";
  return pct > tolerance ? `heat-${shade(pct, tolerance)} heat-past` : `heat-${shade(pct, tolerance)}`;
}

/** A figure that fits a small cell: "0", "3.2" under ten, "12" from ten on. */
export function cellFigure(pct: number): string {
  if (pct < NONE_PCT) return "0";
  return pct < 9.95 ? pct.toFixed(1) : String(Math.round(pct));
}

/** The scale's steps in words, for the legend. */
export function legend(tolerance: number): string[] {
  const ends = ENDS.map((end) => {
    const words = `to ${Number((tolerance * end).toFixed(1))} %`;
    return end === 1 ? `${words}, the tolerance` : words;
  });
  return ["none", ...ends, "more"];
}

/** Columns of one modifier under a common heading. */
export interface ColumnGroup {
  readonly modifier: string;
  readonly columns: readonly HeatColumn[];
}

export function columnGroups(columns: readonly HeatColumn[]): ColumnGroup[] {
  const groups: { modifier: string; columns: HeatColumn[] }[] = [];
  for (const column of columns) {
    const last = groups[groups.length - 1];
    if (last?.modifier === column.modifier) last.columns.push(column);
    else groups.push({ modifier: column.modifier, columns: [column] });
  }
  return groups;
}

/** The cells of a proof: a row for each drink, a cell or nothing for each column. */
export function heatRows(
  proof: Proof,
): { readonly id: string; readonly name: string; readonly cells: (HeatCell | undefined)[] }[] {
  return proof.drinks.map((drink) => ({
    id: drink.drink,
    name: drink.name,
    cells: proof.columns.map((column) =>
      drink.heat.find((cell) => cell.modifier === column.modifier && cell.value === column.value),
    ),
  }));
}

/** A cell in words. */
export function cellWords(drink: string, cell: HeatCell): string {
  const refused = cell.refused > 0 ? `, ${cell.refused.toLocaleString("en")} refused` : "";
  if (cell.built === 0) return `${drink}, ${cell.name}: none can be made${refused}.`;
  return (
    `${drink}, ${cell.name}: ${cell.built.toLocaleString("en")} made${refused}; ` +
    `off by ${cell.mean_pct.toFixed(1)} % on average, ${cell.worst_pct.toFixed(1)} % at worst.`
  );
}
