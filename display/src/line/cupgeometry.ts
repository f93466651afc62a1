/** The cup's cross-section to scale: volumes to heights in a cup that widens upwards. Pure. */
import type { Fill } from "../wire.gen";

/** Radius at the bottom as a share of that at the brim, as usual for cups that stack. */
export const TAPER = 0.74;

/** Height, as a share of the cup's, to which `share` of its brimful volume stands. */
export function heightOf(share: number): number {
  const within = Math.min(1, Math.max(0, share));
  // The volume of a cone's slice grows with the cube of its radius.
  const radius = Math.cbrt(TAPER ** 3 + within * (1 - TAPER ** 3));
  return (radius - TAPER) / (1 - TAPER);
}

/** Half the cup's width at a height, both as shares of the cup's own. */
export function radiusAt(height: number): number {
  return TAPER + (1 - TAPER) * height;
}

/** A slice of the cup between two heights (shares of the cup's height, from the bottom). */
export interface Slice {
  readonly what: string;
  readonly label: string;
  readonly volume_ml: number;
  readonly from: number;
  readonly to: number;
}

/** The layers as slices from the bottom up, and the heights of the fill and of the seal line. */
export function slices(fill: Fill): {
  readonly slices: Slice[];
  readonly filled: number;
  readonly line: number;
} {
  let below = 0;
  const stacked = fill.layers
    .filter((layer) => layer.volume_ml > 0)
    .map((layer) => {
      const from = heightOf(below / fill.brim_ml);
      below += layer.volume_ml;
      return { ...layer, from, to: heightOf(below / fill.brim_ml) };
    });
  return {
    slices: stacked,
    filled: heightOf(below / fill.brim_ml),
    line: heightOf(fill.line_ml / fill.brim_ml),
  };
}
