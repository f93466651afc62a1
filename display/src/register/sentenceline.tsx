/** The sentence of the line; each chosen word is a button that opens its choices below. */
import type { JSX } from "preact";
import type { Menu } from "../wire.gen";
import type { Draft, Slot } from "./draft";
import { quoted } from "./quoting";
import { sentence } from "./sentence";
import { changing, open } from "./state";

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

export function SentenceLine({ menu, draft }: { menu: Menu; draft: Draft }): JSX.Element {
  const now = quoted.value;
  const wrong = now.state === "refused" ? now.slot : null;
  return (
    <div class="sentence-block">
      <p class="sentence">
        {sentence(menu, draft).map((piece, index) => {
          const { slot } = piece;
          if (!slot) return <span key={index}>{piece.text}</span>;
          const kind = `word${piece.open ? " word-open" : ""}${wrong === slot ? " word-wrong" : ""}`;
          return (
            <button
              key={slot}
              type="button"
              class={kind}
              aria-expanded={open.value === slot}
              aria-controls={PANEL}
              aria-label={`${SLOT_NAMES[slot]}: ${piece.text}`}
              onClick={() => {
                open.value = slot;
                changing.value = slot === "drink";
              }}
            >
              {piece.text}
            </button>
          );
        })}
      </p>
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
