/** The heat map's one hue: from paper to deep blue, in few steps, with the figure always in the cell. Pure. */
import type { HeatCell, HeatColumn, Proof } from "../wire.gen";

/** How many steps the scale has, the first being "no error to speak of". */
export const STEPS = 6;

/**
 * The step of an error in per cent, 0 to STEPS − 1. The book's tolerance ends the fourth step: what is darker
 * than that is past it.
 */
export function shade(pct: number, tolerance: number): number {
  if (!(pct > 0.05) || !(tolerance > 0)) return 0;
  const share = pct / tolerance;
  if (share <= 1 / 3) return 1;
  if (share <= 2 / 3) return 2;
  if (share <= 1) return 3;
  return share <= 2 ? 4 : 5;
}

/** A figure that fits a small cell: "0", ".4" never, "3.2" under ten, "12" from ten on. */
export function cellFigure(pct: number): string {
  if (pct < 0.05) return "0";
  return pct < 9.95 ? pct.toFixed(1) : String(Math.round(pct));
}

/** The scale's steps in words, for the legend. */
export function legend(tolerance: number): string[] {
  const third = (n: number): string => cellFigure((tolerance * n) / 3);
  return [
    "none",
    `to ${third(1)} %`,
    `to ${third(2)} %`,
    `to ${third(3)} %, the tolerance`,
    `to ${third(6)} %`,
    "more",
  ];
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
