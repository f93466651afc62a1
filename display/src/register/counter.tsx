/** The middle of the register: the sentence, the choices of the open word, and the cup they make. */
import type { JSX } from "preact";
import { menu, money } from "../shop";
import { taxName } from "../tax";
import { ChoicePanel } from "./choicepanel";
import { CupFacts } from "./cupfacts";
import { putLine } from "./order";
import { draft, lastQuote, quoted } from "./quoting";
import { SentenceLine } from "./sentenceline";
import { changing, editing, open, short } from "./state";

function leave(): void {
  draft.value = undefined;
  editing.value = null;
  changing.value = false;
  open.value = null;
}

function Add(): JSX.Element {
  const now = quoted.value;
  const quote = now.state === "quote" && now.draft === draft.value ? now.quote : null;
  const shown = quote ?? lastQuote(now);
  const line = draft.value;
  const tax = menu.value?.tax;
  const price = shown && line && now.state !== "refused" ? money.value(shown.price * line.quantity) : "";
  return (
    <div class="add">
      <button type="button" class="plain" onClick={leave}>
        Cancel
      </button>
      <button
        type="button"
        class="add-button"
        disabled={!quote || short.value.length > 0}
        onClick={() => {
          if (!quote || !line) return;
          putLine(line, quote, editing.value);
          leave();
        }}
      >
        {editing.value ? "Change the line" : "Add to order"} <strong>{price}</strong>
        {price && tax && !tax.included && <small> plus {taxName(tax)}</small>}
      </button>
    </div>
  );
}

export function Counter(): JSX.Element {
  const held = menu.value;
  const line = draft.value;
  if (!held || !line) {
    return (
      <section class="counter counter-empty" aria-label="The line">
        <p>Choose a drink.</p>
        <p>It is written out here as a sentence, and each of its words can be touched to change it.</p>
      </section>
    );
  }
  return (
    <section class="counter" aria-label="The line">
      <SentenceLine menu={held} draft={line} />
      <div class="counter-middle">
        <ChoicePanel menu={held} draft={line} />
        <CupFacts />
      </div>
      <Add />
    </section>
  );
}
