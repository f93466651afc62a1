/** All prices of a list raised or lowered by some per cent, rounded as prices of this shop are. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { menu, money } from "../../../link/shop";
import { edit, edits } from "../../book/data";
import { MOST_PERCENT, percentOf, raiseAll } from "../../book/prices";
import type { Sheet } from "../../book/sheets";

/** What prices may be rounded to, in minor units. */
const STEPS: readonly number[] = [1, 5, 10, 50];

export function Raise({ sheets }: { sheets: readonly Sheet[] }): JSX.Element {
  const [text, setText] = useState("");
  const [step, setStep] = useState(10);
  const [wrong, setWrong] = useState(false);
  return (
    <form
      class="raise"
      noValidate
      aria-label="All of these prices at once"
      onSubmit={(event) => {
        event.preventDefault();
        const percent = percentOf(text);
        setWrong(percent === undefined);
        if (percent === undefined) return event.currentTarget.querySelector("input")?.focus();
        const digits = menu.value?.shop.minor_digits ?? 2;
        edit(raiseAll(edits.peek(), sheets, { percent, step, digits }));
        setText("");
      }}
    >
      <label>
        All by, in %
        <input
          type="text"
          inputMode="text"
          autocomplete="off"
          placeholder="+5 or −5"
          aria-invalid={wrong}
          value={text}
          onInput={(event) => {
            setText(event.currentTarget.value);
            setWrong(false);
          }}
        />
      </label>
      <label>
        Rounded to
        <select value={step} onChange={(event) => setStep(Number(event.currentTarget.value))}>
          {STEPS.map((one) => (
            <option key={one} value={one}>
              {money.value(one)}
            </option>
          ))}
        </select>
      </label>
      <button type="submit">Change all</button>
      {wrong && (
        <p class="field-fault" role="alert">
          Write per cents from −{MOST_PERCENT} to {MOST_PERCENT}, such as 5, 2.5 or −10.
        </p>
      )}
    </form>
  );
}
