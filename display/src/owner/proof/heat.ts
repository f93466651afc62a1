/** The heat map's one hue: from paper to deep blue, in few steps, with the figure always in the cell. Pure. */
import type { HeatCell, HeatColumn, Proof } from "../../wire.gen";

/** How many steps the scale has, the first being "no error to speak of". */
export const STEPS = 6;

/** What the map shows: how far off the recipe at worst or on average, or by hand the share fussy or the seconds. */
export type View = "worst" | "mean" | "fussy" | "seconds";

/** The views in the order of their buttons, with their words. */
export const VIEWS: readonly (readonly [View, string])[] = [
  ["worst", "Off at worst"],
  ["mean", "Off on average"],
  ["fussy", "Fussy by hand"],
  ["seconds", "Seconds by hand"],
];

/** Each view in a sentence's words. */
export const VIEW_WORDS: Readonly<Record<View, string>> = {
  worst: "Errors in per cent, the worst",
  mean: "Errors in per cent, on average",
  fussy: "Share that is fussy to measure, in per cent",
  seconds: "Seconds of hands measuring, on average",
};

/** Where the steps of errors end, as shares of the tolerance: two within it, two past it; the last has no end. */
const ENDS: readonly number[] = [0.5, 1, 2, 5];

/** Where the steps end by hand: per cent that are fussy, and seconds. */
const HAND_ENDS = { fussy: [1, 5, 20, 50], seconds: [20, 30, 45, 60] } as const;

/** What is read as none: per cent, or seconds. */
const NONE = 0.05;

function ends(view: View, tolerance: number): readonly number[] {
  return view === "worst" || view === "mean" ? ENDS.map((end) => end * tolerance) : HAND_ENDS[view];
}

/** What a cell shows in a view: per cent, or seconds. */
export function cellValue(cell: HeatCell, view: View): number {
  if (view === "worst") return cell.worst_pct;
  if (view === "mean") return cell.mean_pct;
  if (view === "seconds") return cell.seconds;
  return cell.built > 0 ? (100 * cell.fussy) / cell.built : 0;
}

/** The step of a value, 0 to STEPS − 1; of errors those from step 3 on are past the tolerance. */
export function shade(value: number, tolerance: number, view: View = "worst"): number {
  if (!(value >= NONE) || !(tolerance > 0)) return 0;
  const step = ends(view, tolerance).findIndex((end) => value <= end);
  return step < 0 ? STEPS - 1 : step + 1;
}

/** Whether a cell is past the tolerance; nothing by hand is. */
function isPast(value: number, tolerance: number, view: View): boolean {
  return (view === "worst" || view === "mean") && value > tolerance;
}

/** A cell's look: its hue, and a mark in its corner when it is past the tolerance. */
export function cellClass(cell: HeatCell, value: number, tolerance: number, view: View = "worst"): string {
  if (cell.built === 0) return "heat-refused";
  const look = `heat-${shade(value, tolerance, view)}`;
  return isPast(value, tolerance, view) ? `${look} heat-past` : look;
}

/** A figure that fits a small cell: "0", "3.2" under ten, "12" from ten on. */
export function cellFigure(pct: number): string {
  if (pct < NONE) return "0";
  return pct < 9.95 ? pct.toFixed(1) : String(Math.round(pct));
}

/** The scale's steps in words, for the legend. */
export function legend(tolerance: number, view: View = "worst"): string[] {
  const unit = view === "seconds" ? "s" : "%";
  const words = ends(view, tolerance).map((end) => {
    const to = `to ${Number(end.toFixed(1))} ${unit}`;
    return view !== "fussy" && view !== "seconds" && end === tolerance ? `${to}, the tolerance` : to;
  });
  return ["none", ...words, "more"];
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
    `off by ${cell.mean_pct.toFixed(1)} % on average, ${cell.worst_pct.toFixed(1)} % at worst; ` +
    `by hand ${cell.fussy.toLocaleString("en")} fussy, ${cell.seconds.toFixed(1)} s on average.`
  );
}
