/** The proof: how far it has come, what it covers, the worst cases, what breaks it, what to do. */
import "../styles/owner.css";
import "../styles/proof.css";
import { Fragment, type JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import { act, reason } from "../api";
import type { DrinkProof, Proof } from "../wire.gen";
import { book, readBook } from "./data";
import { HeatMap } from "./heatmap";
import { Progress } from "./progress";
import { underWay, useProof } from "./proofwatch";
import { OwnWord } from "./save";
import { OwnerTop } from "./top";
import { caseWords, Violations } from "./violations";

const figures = (value: number): string => value.toLocaleString("en");
const pct = (value: number): string => `${value.toFixed(1)} %`;

function Coverage({ proof }: { proof: Proof }): JSX.Element {
  const cells: readonly (readonly [string, string])[] = [
    ["combinations", figures(proof.combinations)],
    ["built", figures(proof.built)],
    ["refused in words", figures(proof.refused)],
    ["past the tolerance, and said so", figures(proof.flagged)],
    ["that break the proof", figures(proof.violated)],
    ["off on average", pct(proof.mean_pct)],
    ["off at worst", pct(proof.worst_pct)],
  ];
  return (
    <dl class="coverage">
      {cells.map(([name, value]) => (
        <div key={name}>
          <dd>{value}</dd>
          <dt>{name}</dt>
        </div>
      ))}
    </dl>
  );
}

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
      {drink.refusals.map((refused) => (
        <li key={`${refused.code}${refused.field}${refused.message}`}>
          <b>{figures(refused.count)} refused</b> {refused.message}{" "}
          <small>For one: {caseWords(refused.example)}.</small>
        </li>
      ))}
    </ul>
  );
}

function DrinkRows({ proof }: { proof: Proof }): JSX.Element {
  const [open, setOpen] = useState("");
  return (
    <div class="scroll-x">
      <table class="ledger proof-drinks">
        <thead>
          <tr>
            <th scope="col">Drink</th>
            {["Combinations", "Built", "Refused", "Said so", "Broken", "On average", "Worst"].map((name) => (
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
                    onClick={() => setOpen(open === drink.drink ? "" : drink.drink)}
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
              </tr>
              {open === drink.drink && (
                <tr class="proof-open">
                  <td colSpan={8}>
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

/** As many pieces of advice as one sitting takes; the rest can be opened. */
const FIRST = 6;

function Pieces({ advice }: { advice: Proof["advice"] }): JSX.Element {
  return (
    <ul class="advice">
      {advice.map((one) => (
        <li key={`${one.drink}${one.text}`}>{one.text}</li>
      ))}
    </ul>
  );
}

function Advice({ proof }: { proof: Proof }): JSX.Element {
  const { advice } = proof;
  if (advice.length === 0) return <p class="nothing">No advice: nothing is too coarse or too full.</p>;
  return (
    <>
      <Pieces advice={advice.slice(0, FIRST)} />
      {advice.length > FIRST && (
        <details class="more-keys">
          <summary>{advice.length - FIRST} more, for fewer combinations</summary>
          <Pieces advice={advice.slice(FIRST)} />
        </details>
      )}
    </>
  );
}

function Told({ proof }: { proof: Proof }): JSX.Element {
  return (
    <>
      <Coverage proof={proof} />
      {proof.violated > 0 && (
        <section>
          <h2>What breaks it</h2>
          <Violations proof={proof} />
        </section>
      )}
      <section>
        <h2>How far off, by drink and modifier</h2>
        <HeatMap proof={proof} />
      </section>
      <section>
        <h2>What to do</h2>
        <Advice proof={proof} />
      </section>
      <section>
        <h2>Worst cases and refusals, by drink</h2>
        <DrinkRows proof={proof} />
      </section>
    </>
  );
}

export function ProofPage(): JSX.Element {
  const version = new URLSearchParams(location.search).get("version") ?? "";
  const [again, setAgain] = useState(0);
  const [wrong, setWrong] = useState("");
  const { proof, fault } = useProof(version, again);
  useEffect(() => void readBook(), [proof?.state]);
  const held = book.value;
  const draft = held && proof && held.version === proof.version && held.open !== proof.version;
  return (
    <div class="owner-page">
      <OwnerTop here="Proof" />
      <main class="proof-page">
        <header class="proof-head">
          <h1>The proof{proof && ` of version ${proof.version}`}</h1>
          <button
            type="button"
            disabled={!proof || underWay(proof)}
            onClick={async () => {
              try {
                await act<Proof>("/api/owner/proof", version === "" ? {} : { version });
                setWrong("");
                setAgain((count) => count + 1);
              } catch (error) {
                setWrong(reason(error));
              }
            }}
          >
            {proof?.state === "stopped" || proof?.state === "none" ? "Prove it" : "Prove it again"}
          </button>
        </header>
        {(fault || wrong) && (
          <p class="fault" role="alert">
            {fault || wrong}
          </p>
        )}
        {proof && <Progress proof={proof} />}
        {draft && proof.state === "fails" && (
          <OwnWord version={proof.version} onDone={() => setAgain((count) => count + 1)} />
        )}
        {proof && proof.drinks.length > 0 && <Told proof={proof} />}
        {proof?.state === "none" && (
          <p class="nothing">
            Every combination that the register can ring in is resolved and checked: has a build or an honest
            refusal, fits, can be measured, and is never worse than its neighbour without a cause.
          </p>
        )}
      </main>
    </div>
  );
}
