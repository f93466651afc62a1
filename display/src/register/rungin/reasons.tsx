/** Why something is struck off or made again: the usual reasons to touch, any other to write. */
import type { JSX } from "preact";

export const VOID_REASONS = [
  "Rung in by mistake",
  "Customer changed their mind",
  "Cannot be made",
  "Nobody came for it",
];
export const REMAKE_REASONS = ["Wrong build", "Spilled", "Took too long", "Changed their mind"];

interface ReasonsProps {
  readonly reasons: readonly string[];
  readonly why: string;
  readonly onWhy: (why: string) => void;
}

export function Reasons({ reasons, why, onWhy }: ReasonsProps): JSX.Element {
  return (
    <div class="reasons">
      <div class="buttons" role="group" aria-label="Reason">
        {reasons.map((one) => (
          <button key={one} type="button" aria-pressed={why === one} onClick={() => onWhy(one)}>
            {one}
          </button>
        ))}
      </div>
      <label class="void-reason">
        Reason
        <input
          type="text"
          maxLength={200}
          value={why}
          onInput={(event) => onWhy(event.currentTarget.value)}
        />
      </label>
    </div>
  );
}
