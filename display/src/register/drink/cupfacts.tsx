/** The cup that the sentence makes, to scale, with what must be known of it. */
import type { JSX } from "preact";
import { Cup } from "../../line/cup";
import { lastQuote, quoted, telling, UNKNOWN } from "./quoting";

export function CupFacts(): JSX.Element {
  const now = quoted.value;
  const quote = lastQuote(now);
  if (!quote) return <section class="cupfacts" aria-label="The cup" />;
  const { fill, facts: told } = quote.build;
  const { contains, caffeine, cautions, notes } = telling(now);
  const facts: readonly (readonly [string, string])[] = [
    ["Sugars", told ? `${told.sugars_g.toFixed(1)} g, ${told.added_sugars_g.toFixed(1)} g added` : UNKNOWN],
    ["Sweetness", told ? `${told.brix.toFixed(1)} °Bx` : UNKNOWN],
    ["Caffeine", caffeine],
    ["Energy", told ? `${Math.round(told.energy_kj)} kJ · ${Math.round(told.energy_kcal)} kcal` : UNKNOWN],
    ["Served at", told ? `${Math.round(told.temperature_c)} °C` : UNKNOWN],
    ["Contains", contains],
  ];
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached by keyboard too
    <section class={`cupfacts${now.state === "asking" ? " asking" : ""}`} aria-label="The cup" tabIndex={0}>
      <Cup fill={fill} />
      <dl>
        {facts.map(([name, value]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      {(cautions.length > 0 || notes.length > 0) && (
        <ul class="cupfacts-says">
          {cautions.map((caution) => (
            <li key={caution} class="caution">
              {caution}
            </li>
          ))}
          {notes.map((note) => (
            <li key={note}>{note}</li>
          ))}
        </ul>
      )}
    </section>
  );
}
