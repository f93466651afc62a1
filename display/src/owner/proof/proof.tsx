/** The proof: how far it has come, what it covers, the worst cases, what breaks it, what to do. */
import "../../styles/owner/owner.css";
import "../../styles/owner/proof.css";
import type { JSX } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { act, reason } from "../../link/api";
import type { Proof } from "../../wire.gen";
import { counted } from "../../words/words";
import { OwnWord } from "../bench/save";
import { book, readBook } from "../book/data";
import { OwnerTop } from "../top";
import { Advice } from "./advice";
import { HeatMap } from "./heatmap";
import { Progress } from "./progress";
import { DrinkRows } from "./proofdrinks";
import { figures, pct, share } from "./prooffigures";
import { meaningWords, useProof } from "./proofwatch";
import { Reasons } from "./reasons";
import { Violations } from "./violations";

function Coverage({ proof }: { proof: Proof }): JSX.Element {
  const cells: readonly (readonly [string, string])[] = [
    ["combinations", figures(proof.combinations)],
    ["built", figures(proof.built)],
    ["refused in words", figures(proof.refused)],
    ["past the tolerance, and said so", figures(proof.flagged)],
    ["breaches of the proof", figures(proof.violated)],
    ["off on average", pct(proof.mean_pct)],
    ["off at worst", pct(proof.worst_pct)],
    ["fussy to measure", pct(share(proof.hand))],
    ["of hands measuring, on average", `${proof.hand.seconds.toFixed(1)} s`],
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

function Told({ proof }: { proof: Proof }): JSX.Element {
  const [open, setOpen] = useState("");
  const drinks = useRef<HTMLElement>(null);
  const [jumps, setJumps] = useState(0);
  // Once the drink stands open, its name takes the focus: that also brings it into view.
  useEffect(() => {
    if (jumps > 0) drinks.current?.querySelector<HTMLElement>("[aria-expanded=true]")?.focus();
  }, [jumps]);
  return (
    <>
      {proof.done < proof.total && (
        <p class="proof-meaning">
          What stands below is of the {counted(proof.drinks.length, "drink")} proved so far.
        </p>
      )}
      <Coverage proof={proof} />
      {proof.violated > 0 && (
        <section>
          <h2>What breaks it</h2>
          <Violations proof={proof} />
        </section>
      )}
      <section>
        <h2>Off the recipe and by hand, by drink and modifier</h2>
        <HeatMap
          proof={proof}
          onDrink={(drink) => {
            setOpen(drink);
            setJumps((count) => count + 1);
          }}
        />
      </section>
      {proof.reasons.length > 0 && (
        <section>
          <h2>What is refused, and why</h2>
          <Reasons reasons={proof.reasons} />
        </section>
      )}
      <section>
        <h2>What to do</h2>
        <Advice proof={proof} />
      </section>
      <section ref={drinks}>
        <h2>Worst cases and refusals, by drink</h2>
        <DrinkRows proof={proof} open={open} onOpen={setOpen} />
      </section>
    </>
  );
}

/** A way to begin a proof or go on with it; none where there is nothing left to do. */
function Begin({
  proof,
  version,
  onBegun,
}: {
  proof: Proof;
  version: string;
  onBegun: () => void;
}): JSX.Element | null {
  const [wrong, setWrong] = useState("");
  if (proof.state !== "none" && proof.state !== "stopped") return null;
  return (
    <>
      <button
        type="button"
        class="go"
        onClick={async () => {
          try {
            await act<Proof>("/api/owner/proof", version === "" ? {} : { version });
            onBegun();
          } catch (error) {
            setWrong(reason(error));
          }
        }}
      >
        {proof.state === "none" ? "Prove it" : "Go on with it"}
      </button>
      {wrong && (
        <p class="fault" role="alert">
          {wrong}
        </p>
      )}
    </>
  );
}

export function ProofPage(): JSX.Element {
  const version = new URLSearchParams(location.search).get("version") ?? "";
  const [again, setAgain] = useState(0);
  const { proof, fault } = useProof(version, again);
  useEffect(() => void readBook(), [proof?.state]);
  const held = book.value;
  const open = held !== undefined && held.open === proof?.version;
  const draft = held && proof && held.version === proof.version && !open;
  return (
    <div class="owner-page">
      <OwnerTop here="Proof" />
      <main class="proof-page">
        <h1>The proof{proof && ` of version ${proof.version}`}</h1>
        {fault && (
          <p class="fault" role="alert">
            {fault}
          </p>
        )}
        {proof && <Progress proof={proof} />}
        {proof && <p class="proof-meaning">{meaningWords(proof, open)}</p>}
        {proof && <Begin proof={proof} version={version} onBegun={() => setAgain((count) => count + 1)} />}
        {draft && proof.state === "fails" && (
          <OwnWord version={proof.version} onDone={() => setAgain((count) => count + 1)} />
        )}
        {proof && proof.drinks.length > 0 && <Told proof={proof} />}
      </main>
    </div>
  );
}
