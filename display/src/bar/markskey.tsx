/** What each form of mark stands for. */
import type { JSX } from "preact";
import { Tally } from "../parts/tally";

const KINDS: readonly (readonly [string, string])[] = [
  ["scoop", "level scoop"],
  ["pump", "stroke"],
  ["shot", "shot"],
  ["cube", "cube"],
  ["ladle", "ladle"],
];

export function MarksKey(): JSX.Element {
  return (
    <span class="marks-key">
      {KINDS.map(([kind, name]) => (
        <span key={kind}>
          <Tally kind={kind} count={1} /> {name}
        </span>
      ))}
    </span>
  );
}
