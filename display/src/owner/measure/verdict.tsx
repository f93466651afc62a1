/** What repeated readings come to: the verdict, mean and spread, whether they are enough, and taking over. */
import type { JSX } from "preact";
import { useEffect, useRef } from "preact/hooks";
import type { Edit, Weighing } from "../../wire.gen";

interface VerdictProps {
  readonly weighing: Weighing;
  /** What the mean says of the measure, in words. */
  readonly finding: string;
  readonly edits: readonly Edit[];
  readonly onTake: () => void;
}

export function Verdict({ weighing, finding, edits, onTake }: VerdictProps): JSX.Element {
  const good = weighing.verdict === "steady";
  const { unit } = weighing;
  // A thermometer tells no hundredths of a per cent.
  const digits = unit === "%" ? 1 : 2;
  const cells: readonly (readonly [string, string, string])[] = [
    ["mean", `${weighing.mean.toFixed(digits)} ${unit}`, ""],
    ["known within", `± ${weighing.margin.toFixed(digits)} ${unit}`, "at 95 %"],
    [
      "spread",
      `${weighing.spread.toFixed(digits)} ${unit}`,
      `${weighing.spread_pct.toFixed(1)} % of the mean`,
    ],
  ];
  return (
    <div class={`verdict verdict-${good ? "good" : "not"}`} role="status">
      <p class="verdict-word">
        <svg viewBox="0 0 20 20" aria-hidden="true">
          {good ? <path d="M3 11 L8 16 L17 4" /> : <path d="M10 2 L19 18 H1 Z M10 8 V13" />}
        </svg>
        <strong>{weighing.words}</strong>
      </p>
      <dl>
        {cells.map(([name, value, told]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
            <dd class="verdict-told">{told}</dd>
          </div>
        ))}
      </dl>
      <p>{weighing.enough}</p>
      {finding && <p>{finding}</p>}
      <button type="button" class="go" disabled={edits.length === 0} onClick={onTake}>
        {good ? "Take the mean over" : "Take the mean over all the same"}
      </button>
    </div>
  );
}

interface ReadingsProps {
  readonly told: readonly string[];
  readonly outside: readonly number[];
  readonly onOut: (place: number) => void;
}

/** The readings in order; one that was a slip is touched to take it out. */
export function Readings({ told, outside, onOut }: ReadingsProps): JSX.Element | null {
  if (told.length === 0) return null;
  return (
    <>
      <ol class="readings">
        {told.map((words, place) => (
          <li key={place} class={outside.includes(place + 1) ? "reading-outside" : ""}>
            <button
              type="button"
              class="plain"
              aria-label={`Take reading ${place + 1}, ${words}, out`}
              onClick={() => onOut(place)}
            >
              {place + 1}: {words}
            </button>
          </li>
        ))}
      </ol>
      <p class="readings-hint">Touch a reading to take it out.</p>
    </>
  );
}

/** That a mean has been taken over, and what to do next. */
export function Taken(): JSX.Element {
  const here = useRef<HTMLParagraphElement>(null);
  useEffect(() => here.current?.scrollIntoView({ block: "nearest" }), []);
  return (
    <p ref={here} class="taken" role="status">
      Taken over: it is among the edits on the bench, not saved yet.{" "}
      <a href="/owner">See on the bench what it moves, and save it.</a>
    </p>
  );
}
