/** What became of a figure: a form and a word, so that it is never told by colour alone. */
import type { JSX } from "preact";
import type { Turn } from "./diff";

const WORDS: Record<Turn, string> = {
  same: "same",
  more: "more",
  less: "less",
  other: "other",
  new: "new",
  gone: "gone",
  moved: "moved",
};

const FORMS: Record<Turn, string> = {
  same: "M1 6 H11",
  more: "M6 1 L11 11 H1 Z",
  less: "M6 11 L1 1 H11 Z",
  other: "M6 0 L12 6 L6 12 L0 6 Z",
  new: "M5 1 H7 V5 H11 V7 H7 V11 H5 V7 H1 V5 H5 Z",
  gone: "M2 1 L6 5 L10 1 L11 2 L7 6 L11 10 L10 11 L6 7 L2 11 L1 10 L5 6 L1 2 Z",
  moved: "M6 0 L10 4 H2 Z M6 12 L2 8 H10 Z",
};

export function TurnMark({ turn, text = "" }: { turn: Turn; text?: string }): JSX.Element {
  return (
    <span class={`turn turn-${turn}`}>
      <svg viewBox="0 0 12 12" aria-hidden="true">
        <path d={FORMS[turn]} />
      </svg>
      {text === "" ? WORDS[turn] : text}
      {text !== "" && <span class="unseen"> {WORDS[turn]}</span>}
    </span>
  );
}
