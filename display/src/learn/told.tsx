/** What came of one step: right, or what would have been and why, beside what was chosen. */
import type { JSX } from "preact";
import { Tally, Tick } from "../parts/tally";
import type { TrainingDrink, TrainingStep } from "../wire.gen";
import type { Answer } from "./round";

function Cross(): JSX.Element {
  return (
    <svg class="tick" viewBox="0 0 20 20" aria-hidden="true">
      <path d="M4 4 L16 16 M16 4 L4 16" fill="none" stroke="currentColor" stroke-width="3" />
    </svg>
  );
}

/** What was chosen, to be seen beside what is right. */
function chosenWords(drink: TrainingDrink, step: TrainingStep, answer: Answer): string {
  const station = drink.stations.find((one) => one.id === answer.station)?.name ?? answer.station;
  const amount = step.choices.find((choice) => choice.count === answer.count)?.text;
  return amount === undefined ? station : `${station}, ${amount}`;
}

interface ToldProps {
  readonly drink: TrainingDrink;
  readonly step: TrainingStep;
  readonly answer: Answer;
}

export function Told({ drink, answer, step }: ToldProps): JSX.Element {
  const { checked } = answer;
  return (
    <li class={checked.right ? "told-right" : "told-wrong"}>
      {checked.right ? <Tick /> : <Cross />}
      <span>
        <strong>{checked.right ? "Right: " : "Not so: "}</strong>
        {checked.text}
        {step.asks === "amount" && step.kind && checked.count !== null && (
          <Tally kind={step.kind} count={checked.count} />
        )}
        {!checked.right && (
          <small>
            You chose {chosenWords(drink, step, answer)}. {checked.why}
          </small>
        )}
      </span>
    </li>
  );
}
