/** The choices of one word of the sentence, as big buttons. */
import type { JSX } from "preact";
import { type Choosing, type Option, options, type ToppingOption, toppings } from "./choices";
import type { Draft, Slot } from "./draft";

/** What a choice does with the line it makes. */
type Take = (next: Draft) => void;

function OptionButton({ option, take }: { option: Option; take: Take }): JSX.Element {
  return (
    <button
      type="button"
      class={`option${option.chosen ? " chosen" : ""}`}
      aria-pressed={option.chosen}
      aria-disabled={option.refused !== null}
      onClick={() => {
        if (option.refused === null) take(option.next);
      }}
    >
      <span>{option.label}</span>
      <em>{option.refused ?? option.detail}</em>
    </button>
  );
}

interface PortionProps {
  readonly topping: ToppingOption;
  readonly option: Option;
  readonly take: Take;
}

function PortionButton({ topping, option, take }: PortionProps): JSX.Element {
  return (
    <button
      type="button"
      class={`portion${option.chosen ? " chosen" : ""}`}
      aria-pressed={option.chosen}
      aria-disabled={topping.refused !== null}
      onClick={() => {
        if (topping.refused === null) take(option.next);
      }}
    >
      <span>
        {option.label}
        <span class="unseen"> {topping.name}</span>
      </span>
      <em>{option.detail}</em>
    </button>
  );
}

function ToppingRow({ topping, take }: { topping: ToppingOption; take: Take }): JSX.Element {
  return (
    <li class={`topping${topping.refused ? " topping-refused" : ""}`}>
      <span class="topping-name">
        {topping.name}
        <em>{topping.refused ?? topping.detail}</em>
      </span>
      {topping.half ? (
        <PortionButton topping={topping} option={topping.half} take={take} />
      ) : (
        <span class="portion-none">whole only</span>
      )}
      <PortionButton topping={topping} option={topping.whole} take={take} />
    </li>
  );
}

function Note({ draft, take }: { draft: Draft; take: Take }): JSX.Element {
  return (
    <label class="note">
      What the bar should know
      <textarea
        rows={3}
        maxLength={120}
        value={draft.note}
        onInput={(event) => take({ ...draft, note: event.currentTarget.value })}
      />
    </label>
  );
}

interface ChoicesProps {
  readonly slot: Slot | null;
  readonly choosing: Choosing;
  readonly take: Take;
}

/** The buttons of one word of the sentence. */
export function Choices({ slot, choosing, take }: ChoicesProps): JSX.Element {
  if (slot === "note") return <Note draft={choosing.draft} take={take} />;
  if (slot === "drink") {
    return <p class="choices-hint">Choose the other drink; what it allows of your choices is kept.</p>;
  }
  if (slot === "toppings") {
    return (
      <ul class="toppings">
        {toppings(choosing).map((topping) => (
          <ToppingRow key={topping.id} topping={topping} take={take} />
        ))}
      </ul>
    );
  }
  return (
    <div class={`options options-${slot ?? "none"}`}>
      {slot &&
        options(slot, choosing).map((option) => <OptionButton key={option.id} option={option} take={take} />)}
    </div>
  );
}
