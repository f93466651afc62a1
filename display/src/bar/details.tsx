/** All there is to say of a drink: its whole build in words, what it contains, what to be careful of. */
import type { JSX } from "preact";
import { Dialog } from "../parts/dialog";
import type { Build } from "../wire.gen";
import { counted } from "../words";

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

interface DetailsProps {
  readonly build: Build;
  readonly note: string;
  readonly onClose: () => void;
}

export function Details({ build, note, onClose }: DetailsProps): JSX.Element {
  const { balance } = build;
  return (
    <Dialog title={build.title} onClose={onClose} className="details">
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
          <Section title="Take care" items={build.cautions} />
          <Section title="Notes" items={build.notes} />
          <section>
            <h3>In the cup</h3>
            <p>
              {Math.round(build.fill.filled_ml)} ml at {Math.round(balance.temperature_c)} °C ·{" "}
              {balance.sugars_g.toFixed(1)} g sugars, {balance.added_sugars_g.toFixed(1)} g of it added ·{" "}
              {Math.round(balance.caffeine_mg)} mg caffeine · {Math.round(balance.energy_kj)} kJ
            </p>
            <p>{counted(build.steps.length, "step")}. Ask a manager where an allergen is in question.</p>
          </section>
        </div>
      </div>
    </Dialog>
  );
}
