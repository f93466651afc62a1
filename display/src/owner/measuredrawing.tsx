/** Our drawings of how a measure is weighed: the tool over a cup on a scale, and what to look for. */
import type { JSX } from "preact";
import type { Measured } from "./howto";

/** Each tool in a box of 120 × 70 over the cup; the word beside it says what matters. */
const TOOLS: Record<Exclude<Measured, "chill">, { readonly draw: JSX.Element; readonly word: string }> = {
  scoop: {
    word: "level with its rim",
    draw: (
      <>
        <path d="M38 30 H82 V44 A22 18 0 0 1 38 44 Z" class="drawn-tool" />
        <path d="M40 31 H80 V44 A20 15 0 0 1 40 44 Z" class="drawn-powder" />
        <path d="M82 34 H118" class="drawn-handle" />
        <path d="M24 25 H96" class="drawn-edge" />
        <path d="M92 16 L104 25 L92 34" class="drawn-arrow" />
      </>
    ),
  },
  stroke: {
    word: "down to the stop",
    draw: (
      <>
        <path d="M30 8 H70 V18 H56 V60 H48 V18 H30 Z" class="drawn-tool" />
        <path d="M30 12 H18 V24" class="drawn-handle" />
        <circle cx="18" cy="40" r="4" class="drawn-powder" />
        <path d="M92 10 V48 M84 38 L92 50 L100 38" class="drawn-arrow" />
      </>
    ),
  },
  shot: {
    word: "as for a customer",
    draw: (
      <>
        <path d="M28 10 H84 V24 H28 Z" class="drawn-tool" />
        <path d="M84 16 H120" class="drawn-handle" />
        <path d="M50 24 V32 M62 24 V32" class="drawn-handle" />
        <path d="M50 36 V62 M62 36 V62" class="drawn-drip" />
      </>
    ),
  },
  cube: {
    word: "one at a time",
    draw: (
      <>
        <path d="M42 18 L66 12 L82 24 L82 48 L58 56 L42 42 Z" class="drawn-ice" />
        <path d="M42 18 L58 30 L82 24 M58 30 V56" class="drawn-edge" />
      </>
    ),
  },
  ladle: {
    word: "drained for a moment",
    draw: (
      <>
        <path d="M36 30 H84 A24 24 0 0 1 36 30 Z" class="drawn-tool" />
        <circle cx="50" cy="34" r="5" class="drawn-powder" />
        <circle cx="62" cy="36" r="5" class="drawn-powder" />
        <circle cx="72" cy="33" r="5" class="drawn-powder" />
        <path d="M84 30 C98 28 100 12 112 6" class="drawn-handle" />
        <path d="M58 56 V64" class="drawn-drip" />
      </>
    ),
  },
};

/** A shaker with ice in it, poured through a strainer into a jug with a thermometer. */
function ChillDrawing(): JSX.Element {
  return (
    <svg class="measure-drawing" viewBox="0 0 240 168" aria-hidden="true">
      <path d="M20 20 H72 L66 92 H26 Z" class="drawn-tool" />
      <path d="M30 52 L44 46 L54 54 L50 68 L36 70 Z" class="drawn-ice" />
      <path d="M40 74 L52 70 L60 78 L54 88 H42 Z" class="drawn-ice" />
      <path d="M78 40 L98 56 M98 56 V44 M98 56 H86" class="drawn-arrow" />
      <path d="M84 78 H152 L146 152 H90 Z" class="drawn-cup" />
      <path d="M80 68 H156" class="drawn-drip" />
      <path d="M92 112 H144 L141 148 H95 Z" class="drawn-liquid" />
      <path d="M122 28 V132" class="drawn-handle" />
      <circle cx="122" cy="134" r="6" class="drawn-bulb" />
      <text x="8" y="112">
        weighed: liquid
      </text>
      <text x="8" y="130">
        and ice
      </text>
      <text x="136" y="34">
        read at once
      </text>
      <text x="162" y="72">
        strained
      </text>
    </svg>
  );
}

export function MeasureDrawing({ what }: { what: Measured }): JSX.Element {
  if (what === "chill") return <ChillDrawing />;
  const { draw, word } = TOOLS[what];
  return (
    <svg class="measure-drawing" viewBox="0 0 240 168" aria-hidden="true">
      {draw}
      <text x="128" y="34">
        {word}
      </text>
      <path d="M34 74 L42 124 H78 L86 74 Z" class="drawn-cup" />
      <path d="M18 126 H102 L108 158 H12 Z" class="drawn-scale" />
      <path d="M40 136 H80 V150 H40 Z" class="drawn-window" />
      <text x="60" y="148" text-anchor="middle" class="drawn-figures">
        0.0 g
      </text>
      <text x="128" y="128">
        set to zero
      </text>
      <text x="128" y="146">
        before each reading
      </text>
    </svg>
  );
}
