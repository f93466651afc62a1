/** The line that is open: its sentence with what stands in its way, and the choices of the word that is open. */
import type { JSX } from "preact";
import { Choices } from "../../line/choicebuttons";
import type { Choosing } from "../../line/choices";
import { type Draft, menuDrink } from "../../line/draft";
import { sentence } from "../../line/sentence";
import { PANEL, Sentence, SLOT_NAMES } from "../../line/sentenceline";
import { money } from "../../link/shop";
import type { Menu } from "../../wire.gen";
import { listed } from "../../words/words";
import { useWished } from "../focus";
import { draft as line, quoted } from "./quoting";
import { changing, cup, open, short, soldOut } from "./state";

/** The sentence, and why the line cannot be had as it stands. */
export function SentenceLine({ menu, draft }: { menu: Menu; draft: Draft }): JSX.Element {
  const now = quoted.value;
  const out = short.value;
  const here = useWished<HTMLParagraphElement>("sentence", true, ['[aria-expanded="true"]', ".word"]);
  return (
    <div class="sentence-block">
      <Sentence
        here={here}
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

/** The choices of the word that is open. */
export function ChoicePanel({ menu, draft }: { menu: Menu; draft: Draft }): JSX.Element {
  const drink = menuDrink(menu, draft);
  const slot = open.value;
  const choosing: Choosing | undefined = drink && {
    menu,
    drink,
    draft,
    soldOut: soldOut.value,
    write: money.value,
  };
  return (
    <section class="choices" id={PANEL} aria-label={slot ? SLOT_NAMES[slot] : "Choices"}>
      <h2>{slot ? SLOT_NAMES[slot] : "Touch a word to change it"}</h2>
      {choosing && (
        <Choices
          slot={slot}
          choosing={choosing}
          take={(next) => {
            line.value = next;
          }}
        />
      )}
    </section>
  );
}
