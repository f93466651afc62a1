/** The drink being tried: the register's sentence, each word of it open to another choice. */
import { signal } from "@preact/signals";
import type { JSX } from "preact";
import { Choices } from "../../line/choicebuttons";
import { changeDrink, type Draft, menuDrink, plainDraft, type Slot } from "../../line/draft";
import { type Piece, sentence } from "../../line/sentence";
import { PANEL, Sentence, SLOT_NAMES } from "../../line/sentenceline";
import { money } from "../../link/shop";
import type { Menu } from "../../wire.gen";
import { tried, tryMenu } from "../book/data";
import { showDrink } from "./chosen";

const opened = signal<Slot | null>(null);

/** Closes the choices; focus goes back to their word. */
function close(): void {
  document.querySelector<HTMLElement>(`.trying .word[aria-expanded="true"]`)?.focus();
  opened.value = null;
}

/** The sentence of one drink: how many and the note for the bar belong to an order. */
export function drinkSentence(held: Menu, draft: Draft): Piece[] {
  const pieces = sentence(held, draft);
  const note = pieces.findIndex((piece) => piece.slot === "note");
  return pieces
    .filter((_, index) => note < 0 || (index !== note && index !== note - 1))
    .map((piece) => (piece.slot === "quantity" ? { text: piece.text } : piece));
}

function DrinkChoice({ held, draft }: { held: Menu; draft: Draft }): JSX.Element {
  return (
    <div class="options options-drink">
      {held.drinks.map((drink) => (
        <button
          key={drink.id}
          type="button"
          class={`option${drink.id === draft.drink ? " chosen" : ""}`}
          aria-pressed={drink.id === draft.drink}
          onClick={() => {
            tried.value = changeDrink(draft, drink);
            showDrink(drink.id);
          }}
        >
          <span>{drink.name}</span>
        </button>
      ))}
    </div>
  );
}

export function TryingLine(): JSX.Element | null {
  const held = tryMenu.value;
  const draft = tried.value;
  if (!held || !draft) return null;
  const drink = menuDrink(held, draft);
  const slot = opened.value;
  return (
    <section
      class="trying"
      aria-label="The drink being tried"
      onKeyDown={(event) => {
        if (event.key === "Escape" && slot) close();
      }}
    >
      <Sentence
        pieces={drinkSentence(held, draft)}
        opened={slot}
        wrong={null}
        onOpen={(next) => {
          opened.value = opened.peek() === next ? null : next;
        }}
      />
      {slot && drink && (
        <div class="trying-choices" id={PANEL} role="group" aria-label={SLOT_NAMES[slot]}>
          <div class="trying-head">
            <h2>{SLOT_NAMES[slot]}</h2>
            <button
              type="button"
              class="plain"
              onClick={() => {
                tried.value = plainDraft(drink);
              }}
            >
              As it comes
            </button>
            <button type="button" class="plain" onClick={close}>
              Close
            </button>
          </div>
          {slot === "drink" ? (
            <DrinkChoice held={held} draft={draft} />
          ) : (
            <Choices
              slot={slot}
              choosing={{ menu: held, drink, draft, soldOut: new Set(), write: money.value }}
              take={(next) => {
                tried.value = next;
              }}
            />
          )}
        </div>
      )}
    </section>
  );
}
