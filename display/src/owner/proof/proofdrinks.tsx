/** The proof drink by drink: counts in a row, and its worst cases and refusals when it is opened. */
import { Fragment, type JSX } from "preact";
import type { DrinkProof, Proof } from "../../wire.gen";
import { figures, pct, share } from "./prooffigures";
import { caseWords } from "./violations";

const HEADS = [
  "Combinations",
  "Built",
  "Refused",
  "Said so",
  "Breaches",
  "Off on average",
  "At worst",
  "Fussy",
  "Measuring",
] as const;

/** What is fussy by hand, in words. */
const FUSS: Readonly<Record<DrinkProof["hand"]["fuss"][number]["kind"], string>> = {
  "two tools": "take two tools for one ingredient:",
  "part measure": "take a quarter or less of a measure:",
  "between marks": "are read between marks:",
  "over the brim": "take more than the tool holds at once:",
};

function Worst({ drink }: { drink: DrinkProof }): JSX.Element {
  return (
    <ul class="worst-cases">
      {drink.worst.map((one, index) => (
        <li key={index}>
          <b>{pct(one.error_pct)}</b> {caseWords(one)}
          <small>
            {" "}
            {one.errors
              .slice(0, 3)
              .map(
                (error) =>
                  `${error.label} ${error.error_pct > 0 ? "+" : "−"}${Math.abs(error.error_pct).toFixed(1)} %`,
              )
              .join(", ")}
            {one.flagged && ", said in its build"}
          </small>
        </li>
      ))}
      {drink.hand.fuss.map((fuss) => (
        <li key={fuss.kind}>
          <b>
            {figures(fuss.count)} {FUSS[fuss.kind]}
          </b>{" "}
          {fuss.what} <small>For one: {fuss.example}.</small>
        </li>
      ))}
      {drink.refusals.map((refused) => (
        <li key={`${refused.code}${refused.field}${refused.message}`}>
          <b>{figures(refused.count)} refused</b> {refused.message}{" "}
          <small>For one: {caseWords(refused.example)}.</small>
        </li>
      ))}
    </ul>
  );
}

interface RowsProps {
  readonly proof: Proof;
  /** The drink whose cases are shown, by its id; "" for none. */
  readonly open: string;
  readonly onOpen: (drink: string) => void;
}

export function DrinkRows({ proof, open, onOpen }: RowsProps): JSX.Element {
  return (
    <div class="scroll-x">
      <table class="ledger proof-drinks">
        <thead>
          <tr>
            <th scope="col">Drink</th>
            {HEADS.map((name) => (
              <th key={name} scope="col" class="figures">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {proof.drinks.map((drink) => (
            <Fragment key={drink.drink}>
              <tr>
                <th scope="row">
                  <button
                    type="button"
                    class="plain"
                    aria-expanded={open === drink.drink}
                    onClick={() => onOpen(open === drink.drink ? "" : drink.drink)}
                  >
                    {drink.name}
                  </button>
                </th>
                <td class="figures">{figures(drink.combinations)}</td>
                <td class="figures">{figures(drink.built)}</td>
                <td class="figures">{figures(drink.refused)}</td>
                <td class="figures">{figures(drink.flagged)}</td>
                <td class="figures">
                  {drink.violated > 0 ? <strong>{figures(drink.violated)}</strong> : "0"}
                </td>
                <td class="figures">{pct(drink.mean_pct)}</td>
                <td class="figures">{pct(drink.worst_pct)}</td>
                <td class="figures">{pct(share(drink.hand))}</td>
                <td class="figures">{drink.hand.seconds.toFixed(1)} s</td>
              </tr>
              {open === drink.drink && (
                <tr class="proof-open">
                  <td colSpan={HEADS.length + 1}>
                    <Worst drink={drink} />
                  </td>
                </tr>
              )}
            </Fragment>
          ))}
        </tbody>
      </table>
    </div>
  );
}
