/** The cup's cross-section, drawn to scale: layers from the bottom, the seal line, the head room. */
import type { JSX } from "preact";
import type { Fill } from "../wire.gen";
import { radiusAt, type Slice, slices } from "./cupgeometry";

const HIGH = 128;
const HALF = 50;
const MIDDLE = 58;
const TOP = 8;

const y = (height: number): number => TOP + HIGH * (1 - height);

function outline(from: number, to: number): string {
  const low = radiusAt(from) * HALF;
  const high = radiusAt(to) * HALF;
  return `M${MIDDLE - low} ${y(from)} L${MIDDLE - high} ${y(to)} H${MIDDLE + high} L${MIDDLE + low} ${y(from)} Z`;
}

/** Labels need this much height each; thin layers push the next label up. */
const LABEL_PITCH = 13;

function labelPlaces(layers: readonly Slice[]): number[] {
  let last = Number.POSITIVE_INFINITY;
  return layers.map((layer) => {
    const wanted = (y(layer.from) + y(layer.to)) / 2 + 4;
    last = Math.min(wanted, last - LABEL_PITCH);
    return last;
  });
}

function pattern(what: string): string {
  if (what.includes("ice")) return "ice";
  if (what.includes("topping")) return "topping";
  if (what.includes("foam") || what.includes("crema")) return "foam";
  return "liquid";
}

/** A short name: the liquid is labelled with the whole drink's name, which stands in the sentence already. */
function nameOf(layer: Slice): string {
  return pattern(layer.what) === "liquid" ? "drink" : layer.label;
}

/** The drawing, with a description in words for those who do not see it. */
export function Cup({ fill }: { fill: Fill }): JSX.Element {
  const { slices: layers, line } = slices(fill);
  const places = labelPlaces(layers);
  const head = Math.round(fill.head_ml);
  const parts = layers.map((layer) => `${layer.label} ${Math.round(layer.volume_ml)} ml`).join(", ");
  const described = `Cup from the bottom: ${parts}. ${head} ml below the seal line of ${Math.round(fill.line_ml)} ml.`;
  return (
    <svg class="cup" viewBox="0 0 226 150" role="img" aria-label={described}>
      <defs>
        <pattern id="cup-ice" width="14" height="14" patternUnits="userSpaceOnUse">
          <rect width="14" height="14" class="cup-fill-ice" />
          <rect x="2" y="2" width="8" height="8" class="cup-cube" />
        </pattern>
        <pattern id="cup-topping" width="10" height="10" patternUnits="userSpaceOnUse">
          <rect width="10" height="10" class="cup-fill-topping" />
          <circle cx="3" cy="3" r="2.4" class="cup-pearl" />
          <circle cx="8" cy="8" r="2.4" class="cup-pearl" />
        </pattern>
        <pattern id="cup-foam" width="6" height="6" patternUnits="userSpaceOnUse">
          <rect width="6" height="6" class="cup-fill-foam" />
          <circle cx="3" cy="3" r="1" class="cup-bubble" />
        </pattern>
        <pattern id="cup-liquid" width="8" height="8" patternUnits="userSpaceOnUse">
          <rect width="8" height="8" class="cup-fill-liquid" />
        </pattern>
      </defs>
      {layers.map((layer) => (
        <path
          key={layer.label}
          d={outline(layer.from, layer.to)}
          fill={`url(#cup-${pattern(layer.what)})`}
          class="cup-layer"
        />
      ))}
      <path d={outline(0, 1)} class="cup-wall" />
      <path d={`M${MIDDLE - HALF - 6} ${y(line)} H${MIDDLE + HALF + 6}`} class="cup-line" />
      <text
        x={MIDDLE + HALF + 10}
        y={Math.min(y(line), (places.at(-1) ?? 99) - 16) + 3}
        class="cup-line-label"
      >
        seal {Math.round(fill.line_ml)}
      </text>
      {layers.map((layer, index) => (
        <text key={layer.label} x={MIDDLE + HALF + 10} y={places[index] ?? 0} class="cup-label">
          {nameOf(layer)} {Math.round(layer.volume_ml)}
        </text>
      ))}
      <text x={MIDDLE} y={HIGH + TOP + 13} text-anchor="middle" class="cup-label">
        {head} ml left to the line
      </text>
    </svg>
  );
}
