/** The sentence of the line; each chosen word is a button that opens its choices below. */
import type { JSX } from "preact";
import { quoted } from "../register/drink/quoting";
import { changing, cup, open, short } from "../register/drink/state";
import { useWished } from "../register/focus";
import type { Menu } from "../wire.gen";
import { listed } from "../words/words";
import type { Draft, Slot } from "./draft";
import { type Piece, sentence } from "./sentence";

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
}

/** A sentence whose words open their choices. */
export function Sentence({ pieces, opened, wrong, onOpen }: SentenceProps): JSX.Element {
  const here = useWished<HTMLParagraphElement>("sentence", true, ['[aria-expanded="true"]', ".word"]);
  const last = pieces.length - 2;
  return (
    <p class="sentence" ref={here}>
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

export function SentenceLine({ menu, draft }: { menu: Menu; draft: Draft }): JSX.Element {
  const now = quoted.value;
  const out = short.value;
  return (
    <div class="sentence-block">
      <Sentence
        pieces={sentence(menu, draft, cup.value !== null)}
        opened={open.value}
        wrong={now.state === "refused" ? now.slot : (out[0]?.slot ?? null)}
        onOpen={(slot) => {
          open.value = slot;
          changing.value = slot === "drink";
        }}
      />
      {out.length > 0 && (
        <p class="refusal" role="alert">
          <strong>Sold out:</strong> {listed(out.map(({ name }) => name))}. Choose something else.
        </p>
      )}
      {now.state === "refused" && (
        <p class="refusal" role="alert">
          <strong>Cannot be made{now.slot ? ` (${SLOT_NAMES[now.slot].toLowerCase()})` : ""}:</strong>{" "}
          {now.why}
          {now.accepted && <span> Accepted: {now.accepted}</span>}
        </p>
      )}
      {now.state === "down" && (
        <p class="refusal" role="alert">
          <strong>No price yet:</strong> {now.why}
        </p>
      )}
    </div>
  );
}
