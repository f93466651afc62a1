/** Counts and errors as the pages of the proof write them. Pure. */

export const figures = (value: number): string => value.toLocaleString("en");
export const pct = (value: number): string => `${value.toFixed(1)} %`;
