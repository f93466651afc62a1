/** The owner's bench: what to edit at the left; at the right, live, what each edit does. */
import "../../styles/line.css";
import "../../styles/owner/owner.css";
import "../../styles/owner/bench.css";
import "../../styles/owner/bench-forms.css";
import "../../styles/owner/bench-steps.css";
import type { JSX } from "preact";
import { useEffect } from "preact/hooks";
import { menu, menuFault, money } from "../../link/shop";
import type { Trial } from "../../wire.gen";
import { capital, counted } from "../../words/words";
import { book, bookFault, edit, edits, followEdits, putAside, trial, tried } from "../book/data";
import { countOf, isRemoved, NO_EDITS } from "../book/edits";
import { minorOf, type PriceChange } from "../book/prices";
import { OwnerTop } from "../top";
import { changedPrices, faultPlace, showFault } from "./chosen";
import { Forms } from "./forms/forms";
import { Movers, moverWords } from "./outcome/movers";
import { OutcomeView } from "./outcome/outcome";
import { Sizes } from "./outcome/sizes";
import { noting, Saving, saved } from "./save";
import { TryingLine } from "./trying";

/** What the edited book would be refused for; each leads to its field. */
function BookRefused({ faults }: { faults: Trial["faults"] }): JSX.Element {
  return (
    <div class="refusal book-refused" role="alert">
      <strong>With these edits the book would be refused:</strong>
      <ul>
        {faults.slice(0, 5).map((fault) => (
          <li key={`${fault.file}${fault.key}${fault.line}`}>
            <button type="button" class="plain" onClick={() => showFault(fault)}>
              {faultPlace(fault)}
            </button>
            <span>{fault.message}</span>
          </li>
        ))}
      </ul>
      {faults.length > 5 && <p>and {faults.length - 5} more</p>}
    </div>
  );
}

function Tried({ last, edited }: { last: Trial; edited: boolean }): JSX.Element {
  if (!last.before || !last.after) return <BookRefused faults={last.faults} />;
  const drink = tried.value?.drink ?? "";
  const prices = changedPrices.value;
  if (last.after.line === null && isRemoved(edits.value, `drinks/${drink}.toml`, [])) {
    return <p class="nothing">Once this is saved the register no longer offers it.</p>;
  }
  // A drink that is new on the menu, or can be made only now, has nothing to be compared with.
  const compared = edited && last.before.build !== null;
  return (
    <>
      {edited && last.before.line === null && (
        <p class="nothing">Not on the menu before: there is nothing to compare with.</p>
      )}
      <OutcomeView before={last.before} after={last.after} edited={compared} />
      <section>
        <h2>All sizes</h2>
        <Sizes sizes={last.sizes} chosen={tried.value?.size ?? ""} compared={compared} />
      </section>
      {prices.length > 0 && <Prices changes={prices} />}
      {edited && !(prices.length > 0 && last.movers.length === 0) && (
        <section id="movers">
          <h2>
            {last.movers.length === 0
              ? "Recipes that move"
              : `${counted(last.movers.length, "recipe")} ${last.movers.length === 1 ? "moves" : "move"}`}
          </h2>
          <Movers movers={last.movers} />
        </section>
      )}
    </>
  );
}

/** A price in the shop's money, as far as it is one. */
function priceSaid(text: string): string {
  const minor = minorOf(text, menu.value?.shop.minor_digits ?? 2);
  return minor === undefined ? text || "none" : money.value(minor);
}

/** How many prices changed, and one that is alone from what to what. */
function priceWords(changes: readonly PriceChange[]): string {
  const [only] = changes;
  const words = `${counted(changes.length, "price")} changed`;
  if (changes.length !== 1 || !only) return `${words}.`;
  return `${words}: ${capital(only.name)}, ${priceSaid(only.from)} → ${priceSaid(only.to)}.`;
}

function Prices({ changes }: { changes: readonly PriceChange[] }): JSX.Element {
  return (
    <section aria-label="Prices that change">
      <h2>{counted(changes.length, "price")} changed</h2>
      <ul class="price-changes">
        {changes.map((one) => (
          <li key={one.name}>
            {capital(one.name)} <s>{priceSaid(one.from)}</s> <span aria-hidden="true">→</span>{" "}
            <strong>{priceSaid(one.to)}</strong>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** What is edited so far, what it moves, and the way to save it. */
function Foot(): JSX.Element {
  const count = countOf(edits.value);
  const { last, asking } = trial.value;
  const worst = last?.movers[0];
  const refused = (last?.faults.length ?? 0) > 0;
  const held = book.value;
  const draft = held !== undefined && held.version !== held.open;
  let says = "Nothing is edited. Change a field and see here what it does.";
  const prices = changedPrices.value;
  const priced = prices.length === 0 ? "" : priceWords(prices);
  if (count > 0 && asking) says = "Trying it out …";
  else if (refused) says = `${counted(last?.faults.length ?? 0, "fault")}: the book would be refused.`;
  else if (count > 0 && worst)
    says = `${counted(last?.movers.length ?? 0, "recipe")} moved, most of all ${worst.name}: ${moverWords(worst)}.${priced && ` ${priced}`}`;
  else if (priced) says = priced;
  else if (count > 0) says = "No recipe moves, as each drink usually comes.";
  else if (draft)
    says = `What was saved last is not open yet${held.holds === null ? ": it is being proved" : ", since its proof fails"}. See Versions.`;
  return (
    <footer class="bench-foot">
      <p role="status">
        <strong>{count > 0 ? `${counted(count, "edit")}. ` : ""}</strong>
        {says}
      </p>
      <button type="button" class="plain" disabled={count === 0} onClick={() => edit(NO_EDITS)}>
        Undo all
      </button>
      <button
        type="button"
        class="go"
        disabled={count === 0 || refused || asking}
        onClick={() => {
          noting.value = true;
        }}
      >
        Save …
      </button>
    </footer>
  );
}

export function BenchPage(): JSX.Element {
  useEffect(() => {
    saved.value = null;
    return followEdits();
  }, []);
  const { last, fault, asking } = trial.value;
  const wrong = bookFault.value || fault || (book.value ? "" : (menuFault.value ?? ""));
  return (
    <div class="owner-page bench-page">
      <OwnerTop here="Bench" />
      <main class="bench">
        <h1 class="unseen">Bench</h1>
        <Forms />
        <section class={`bench-trial${asking ? " asking" : ""}`} aria-label="What it does">
          {putAside.value && (
            <p class="fault" role="alert">
              {putAside.value}
            </p>
          )}
          {wrong && (
            <p class="fault" role="alert">
              {wrong}
            </p>
          )}
          <TryingLine />
          {last ? (
            <Tried last={last} edited={countOf(edits.value) > 0} />
          ) : (
            !wrong && <p class="nothing">Reading the book …</p>
          )}
        </section>
      </main>
      <Foot />
      <Saving />
    </div>
  );
}
