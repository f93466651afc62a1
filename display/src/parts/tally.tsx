/** A count drawn as marks; each kind of tool has a form of its own, half a measure is half as high. */
import type { JSX } from "preact";
import { groupsOf, lengthOf, type Mark, marksOf } from "./marks";

const HIGH = 20;
const WIDE = 10;

/** Each form fills a box WIDE × HIGH; a share of it is cut from below. */
const FORMS: Record<string, string> = {
  // A level scoop from the front: flat on top, round below.
  scoop: "M0 2 H10 V13 A5 5 0 0 1 0 13 Z",
  // A stroke: the pump's head over its stem.
  pump: "M0 1 H10 V5 H7 V20 H3 V5 H0 Z",
  // A shot: a small glass, wider at the rim.
  shot: "M0 3 H10 L8 19 H2 Z",
  // A cube.
  cube: "M0 8 H10 V18 H0 Z",
  // A ladle from above.
  ladle: "M0 12 A5 5.6 0 1 1 10 12 A5 5.6 0 1 1 0 12 Z",
};

const BAR = "M3 1 H7 V20 H3 Z";

/** Half a ladle, cut rather than lowered: a low disc is no longer read as half of a round one. */
const HALF_LADLE = "M0 10 A5 7 0 0 0 10 10 Z";

function mark(kind: string, { at, share }: Mark): JSX.Element {
  if (kind === "ladle" && share === 0.5)
    return <path d={HALF_LADLE} transform={`translate(${at * WIDE} 0)`} />;
  return (
    <path
      d={FORMS[kind] ?? BAR}
      transform={`translate(${at * WIDE} ${HIGH * (1 - share)}) scale(1 ${share})`}
    />
  );
}

/** The marks of a count of one kind of tool, a drawing for each group of five, so that long counts can wrap. */
export function Tally({ kind, count }: { kind: string; count: number }): JSX.Element | null {
  const groups = groupsOf(marksOf(kind, count));
  if (groups.length === 0 || kind === "jug" || kind === "jigger") return null;
  return (
    <>
      {groups.map((marks, index) => (
        <svg
          key={index}
          class={`tally tally-${kind}`}
          viewBox={`-0.5 0 ${lengthOf(marks) * WIDE + 1} ${HIGH + 0.5}`}
          aria-hidden="true"
        >
          {marks.map((one) => mark(kind, one))}
        </svg>
      ))}
    </>
  );
}

/** A tick, drawn, since not every face has one. */
export function Tick(): JSX.Element {
  return (
    <svg class="tick" viewBox="0 0 20 20" aria-hidden="true">
      <path d="M3 11 L8 16 L17 4" fill="none" stroke="currentColor" stroke-width="3" />
    </svg>
  );
}
