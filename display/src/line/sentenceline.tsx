/** The sentence of a line; each of its words is a button that opens its choices. */
import type { JSX, RefObject } from "preact";
import type { Slot } from "./draft";
import type { Piece } from "./sentence";

/** What each word is about, for those who hear the sentence. */
export const SLOT_NAMES: Record<Slot, string> = {
  quantity: "How many",
  size: "Size",
  drink: "Drink",
  ice: "Ice",
  sugar: "Sugar",
  milk: "Milk",
  toppings: "Toppings",
  shots: "Extra shots",
  without: "Left out",
  note: "Note for the bar",
};

/** Id of the panel that a word opens. */
export const PANEL = "choices";

interface SentenceProps {
  readonly pieces: readonly Piece[];
  readonly opened: Slot | null;
  /** The word that what is wrong is about. */
  readonly wrong: Slot | null;
  readonly onOpen: (slot: Slot) => void;
  /** Holds the element, for who has to bring the focus to a word. */
  readonly here?: RefObject<HTMLParagraphElement | null>;
}

/** A sentence whose words open their choices. */
export function Sentence({ pieces, opened, wrong, onOpen, here }: SentenceProps): JSX.Element {
  const last = pieces.length - 2;
  return (
    <p class="sentence" {...(here ? { ref: here } : {})}>
      {pieces.map((piece, index) => {
        const { slot } = piece;
        if (!slot) return index > last && last >= 0 ? null : <span key={index}>{piece.text}</span>;
        const kind = `word${piece.open ? " word-open" : ""}${wrong === slot ? " word-wrong" : ""}`;
        // The stop goes with the last word, or it would stand alone on a line after a long note.
        const text = index === last ? `${piece.text}${pieces[index + 1]?.text ?? ""}` : piece.text;
        return (
          <button
            key={slot}
            type="button"
            class={kind}
            aria-expanded={opened === slot}
            aria-controls={PANEL}
            aria-label={`${SLOT_NAMES[slot]}: ${text}`}
            onClick={() => onOpen(slot)}
          >
            {text}
          </button>
        );
      })}
    </p>
  );
}
