/** The middle of the register: the sentence, the choices of the open word, and the cup they make. */
import type { JSX } from "preact";
import { menu, money } from "../../link/shop";
import { taxName } from "../../words/tax";
import { lines, locked, setQuantity } from "../order/order";
import { CupHead, SendCup } from "../rungin/cupinhand";
import { CupFacts } from "./cupfacts";
import { add, added, cancel, stuck } from "./opendrink";
import { ChoicePanel, SentenceLine } from "./openline";
import { draft, lastQuote, quoted } from "./quoting";
import { cup, editing, short } from "./state";

function Add(): JSX.Element {
  const now = quoted.value;
  const quote = now.state === "quote" && now.draft === draft.value ? now.quote : null;
  const shown = quote ?? lastQuote(now);
  const line = draft.value;
  const tax = menu.value?.tax;
  const price = shown && line && now.state !== "refused" ? money.value(shown.price * line.quantity) : "";
  return (
    <div class="add">
      <button type="button" class="plain" onClick={cancel}>
        Cancel
      </button>
      <button
        type="button"
        class="add-button"
        disabled={!quote || short.value.length > 0 || locked.value}
        onClick={add}
      >
        {editing.value ? "Change the line" : "Add to order"} <strong>{price}</strong>
        {price && tax && !tax.included && <small> plus {taxName(tax)}</small>}
      </button>
    </div>
  );
}

/** The drink that went into the order because the next one was begun: a drink touched by mistake goes out again. */
function Added(): JSX.Element | null {
  const line = lines.value.find((one) => one.key === added.value);
  if (!line || locked.value) return null;
  return (
    <p class="strip-said" role="status">
      <span>In the order: {line.title}</span>
      <button
        type="button"
        class="plain"
        aria-label={`Not wanted: ${line.title}`}
        onClick={() => {
          added.value = null;
          setQuantity(line.key, 0);
        }}
      >
        Not wanted
      </button>
    </p>
  );
}

export function Counter(): JSX.Element {
  const held = menu.value;
  const line = draft.value;
  if (!held || !line) {
    return (
      <section class="counter counter-empty" aria-label="The line">
        <h2>Choose a drink.</h2>
        <p>It is written out here as a sentence, and each of its words can be touched to change it.</p>
      </section>
    );
  }
  return (
    <section class="counter" aria-label="The line">
      <div>
        <Added />
        <CupHead />
        <SentenceLine menu={held} draft={line} />
        {stuck.value && (
          <p class="refusal" role="alert">
            {stuck.value}
          </p>
        )}
      </div>
      <div class="counter-middle">
        <ChoicePanel menu={held} draft={line} />
        <CupFacts />
      </div>
      {cup.value ? <SendCup /> : <Add />}
    </section>
  );
}
