/** All there is to say of a drink: its whole build in words, what it contains, what to be careful of. */
import type { JSX } from "preact";
import { openRows, type Row } from "../../link/queue";
import { queue } from "../../link/shop";
import { Dialog } from "../../parts/dialog";
import { counted } from "../../words/words";
import { apart, kindOf, turnApart } from "./alike";

function Section({ title, items }: { title: string; items: readonly string[] }): JSX.Element | null {
  if (items.length === 0) return null;
  return (
    <section>
      <h3>{title}</h3>
      <ul>
        {items.map((item) => (
          <li key={item}>{item}</li>
        ))}
      </ul>
    </section>
  );
}

/** Alike cups worked together or one by one, on this screen; nothing where a cup is the only one of its kind. */
function Together({ row }: { row: Row }): JSX.Element | null {
  const kind = kindOf(row);
  const cups = queue.value ? openRows(queue.value).filter((one) => kindOf(one) === kind).length : 0;
  if (cups < 2) return null;
  return (
    <button type="button" class="details-apart" onClick={() => turnApart(row)}>
      {apart.value.has(kind) ? `Work the ${cups} together` : `Work the ${cups} one by one`}
    </button>
  );
}

interface DetailsProps {
  readonly row: Row;
  readonly onClose: () => void;
}

export function Details({ row, onClose }: DetailsProps): JSX.Element {
  const { build, ticket } = row;
  const { note } = row.drink;
  const { facts } = build;
  return (
    <Dialog title={build.title} onClose={onClose} className="details">
      <p>
        Number {ticket.number}
        {ticket.name && `, ${ticket.name}`}
      </p>
      <Together row={row} />
      {build.words.length > 0 && <p class="details-words">{build.words.join(" · ")}</p>}
      {note && <p class="details-note">Note: “{note}”</p>}
      <div class="details-columns">
        <section>
          <h3>Build</h3>
          <ol class="details-steps">
            {build.steps.map((step) => (
              <li key={step.number}>
                {step.text}
                {step.caution && <strong> {step.caution}.</strong>}
              </li>
            ))}
          </ol>
        </section>
        <div>
          <Section title="Contains" items={build.allergens} />
          <Section title="Take care" items={build.cautions.map(({ words }) => words)} />
          <Section title="Notes" items={build.notes.map(({ words }) => words)} />
          <section>
            <h3>In the cup</h3>
            {facts ? (
              <p>
                {Math.round(build.fill.filled_ml)} ml at {Math.round(facts.temperature_c)} °C ·{" "}
                {facts.sugars_g.toFixed(1)} g sugars, {facts.added_sugars_g.toFixed(1)} g of it added ·{" "}
                {Math.round(facts.caffeine_mg)} mg caffeine · {Math.round(facts.energy_kj)} kJ
              </p>
            ) : (
              <p>Not known here: see the recipe.</p>
            )}
            <p>{counted(build.steps.length, "step")}. Ask a manager where an allergen is in question.</p>
          </section>
        </div>
      </div>
    </Dialog>
  );
}
