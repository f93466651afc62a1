/** A number pad of large keys for readings of a scale or thermometer; a keyboard's figures do the same. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { keyed } from "./readings";

const KEYS = ["7", "8", "9", "4", "5", "6", "1", "2", "3", ".", "0", "back"] as const;

function Back(): JSX.Element {
  return (
    <svg viewBox="0 0 30 20" aria-hidden="true">
      <path d="M10 2 H28 V18 H10 L2 10 Z M14 7 L22 13 M22 7 L14 13" />
    </svg>
  );
}

interface PadProps {
  readonly onReading: (value: number) => void;
  /** What is read: "Reading 3". */
  readonly label: string;
  readonly unit: string;
  /** The figure on the pad as a reading; undefined while it is none. */
  readonly readingOf: (held: string) => number | undefined;
}

export function NumberPad({ onReading, label, unit, readingOf }: PadProps): JSX.Element {
  const [held, setHeld] = useState("");
  const value = readingOf(held);
  const enter = (): void => {
    if (value === undefined) return;
    onReading(value);
    setHeld("");
  };
  return (
    <form
      class="pad"
      aria-label="Number pad"
      onSubmit={(event) => {
        event.preventDefault();
        enter();
      }}
    >
      <label>
        {label}
        <span class="pad-shown">
          <input
            inputMode="none"
            autocomplete="off"
            value={held}
            placeholder="0.0"
            onInput={(event) => {
              const text = event.currentTarget.value.replace(",", ".");
              const kept = [...text].reduce(keyed, "");
              event.currentTarget.value = kept;
              setHeld(kept);
            }}
          />
          {unit}
        </span>
      </label>
      <div class="pad-keys">
        {KEYS.map((key) => (
          <button
            key={key}
            type="button"
            aria-label={key === "back" ? "Take the last figure away" : key === "." ? "Point" : key}
            onClick={() => setHeld(keyed(held, key))}
          >
            {key === "back" ? <Back /> : key}
          </button>
        ))}
        <button type="submit" class="go pad-enter" disabled={value === undefined}>
          Take this reading
        </button>
      </div>
    </form>
  );
}
