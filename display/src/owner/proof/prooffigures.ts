/** Counts and errors as the pages of the proof write them. Pure. */

import type { HandProof } from "../../wire.gen";

export const figures = (value: number): string => value.toLocaleString("en");
export const pct = (value: number): string => `${value.toFixed(1)} %`;

/** The share of builds that are fussy to measure, in per cent. */
export const share = (hand: HandProof): number => (hand.built > 0 ? (100 * hand.fussy) / hand.built : 0);
