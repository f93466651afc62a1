/** Counts as marks: whole ones in groups of five, a last one for the part that is left. Pure. */

/** One mark: its place along the line in mark widths, and how much of it is there (0 to 1). */
export interface Mark {
  readonly at: number;
  readonly share: number;
}

/** Marks stand this far apart, and groups this much further, in mark widths. */
const PITCH = 1.45;
const GROUP_GAP = 0.9;
export const GROUP = 5;

/** Past this many, marks no longer count at a glance and only the figure is shown. */
export const MOST_MARKS = 15;

/** The marks of a count; none when it is past counting at a glance. */
export function marksOf(count: number): Mark[] {
  if (!(count > 0) || count > MOST_MARKS) return [];
  const whole = Math.floor(count + 1e-9);
  const rest = Math.round((count - whole) * 100) / 100;
  const shares = [...Array.from({ length: whole }, () => 1), ...(rest > 0 ? [rest] : [])];
  return shares.map((share, index) => ({
    at: index * PITCH + Math.floor(index / GROUP) * GROUP_GAP,
    share,
  }));
}

/** How long a line of marks is, in mark widths. */
export function lengthOf(marks: readonly Mark[]): number {
  const last = marks[marks.length - 1];
  return last === undefined ? 0 : last.at + 1;
}
