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
      <path d="M14 14 H66 L60 86 H20 Z" class="drawn-tool" />
      <path d="M24 46 L38 40 L48 48 L44 62 L30 64 Z" class="drawn-ice" />
      <path d="M34 68 L46 64 L54 72 L48 82 H36 Z" class="drawn-ice" />
      <path d="M72 40 L90 54 M90 54 V42 M90 54 H78" class="drawn-arrow" />
      <path d="M100 78 H168 L162 152 H106 Z" class="drawn-cup" />
      <path d="M96 68 H172" class="drawn-drip" />
      <path d="M108 112 H160 L157 148 H111 Z" class="drawn-liquid" />
      <path d="M138 28 V132" class="drawn-handle" />
      <circle cx="138" cy="134" r="6" class="drawn-bulb" />
      <text x="6" y="108">
        liquid and ice
      </text>
      <text x="6" y="126">
        are weighed
      </text>
      <text x="148" y="34">
        read at once
      </text>
      <text x="178" y="72">
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
