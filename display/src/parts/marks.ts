/** Counts as marks: whole ones in groups of five, a last one for the part that is left. Pure. */

/** One mark: its place along its group in mark widths, and how much of it is there (0 to 1). */
export interface Mark {
  readonly at: number;
  readonly share: number;
}

/** Marks stand this far apart, in mark widths. */
const PITCH = 1.45;

/** As many as are seen at once without counting, and one more. */
export const GROUP = 5;

/** Past this many, marks no longer count at a glance and only the figure is shown. */
export const MOST_MARKS = 15;

/**
 * How many marks a count of a kind is drawn with. Cubes go in by the ice scoop and are read as a figure: past a glance
 * one mark says what they are.
 */
export function marksOf(kind: string, count: number): number {
  return kind === "cube" && count > GROUP ? 1 : count;
}

/** The marks of a count in groups; none when it is past counting at a glance. */
export function groupsOf(count: number): Mark[][] {
  if (!(count > 0) || count > MOST_MARKS) return [];
  const whole = Math.floor(count + 1e-9);
  const rest = Math.round((count - whole) * 100) / 100;
  const shares = [...Array.from({ length: whole }, () => 1), ...(rest > 0 ? [rest] : [])];
  const groups: Mark[][] = [];
  shares.forEach((share, index) => {
    const place = index % GROUP;
    if (place === 0) groups.push([]);
    groups[groups.length - 1]?.push({ at: place * PITCH, share });
  });
  return groups;
}

/** How long a group is, in mark widths. */
export function lengthOf(marks: readonly Mark[]): number {
  const last = marks[marks.length - 1];
  return last === undefined ? 0 : last.at + 1;
}
