/** A wait, drawn as every screen of the bar draws it. */
import type { JSX } from "preact";
import { now } from "../../link/clock";
import { floor } from "../../link/shop";
import { lateness, waitWords } from "./timers";

/** How long a ticket has waited; once it is soon late, how long is left; each told in words as well. */
export function Wait({ rungAt }: { rungAt: number }): JSX.Element {
  const late = lateness(rungAt, now.value, floor.value);
  const { word, figure } = waitWords(rungAt, now.value, floor.value);
  const said = word && <strong class="wait-word">{word}</strong>;
  return (
    <span class={`wait wait-${late}`}>
      {late === "soon" && said} <span class="wait-figure">{figure}</span> {late === "late" && said}
    </span>
  );
}
