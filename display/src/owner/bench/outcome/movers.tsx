/** The recipes that move, by how much, as bars on one scale; what changes in each can be opened. */
import type { JSX } from "preact";
import type { ComponentChange, Mover } from "../../../wire.gen";
import { counted } from "../../../words/words";

/** As many components as are read at a glance; the rest moves less. */
const MOST_COMPONENTS = 8;

/** A change with its sign: "+9.8 %", "−0.4 %". */
export function signed(pct: number): string {
  const figure = Math.abs(pct).toFixed(1);
  if (Number(figure) === 0) return "0 %";
  return `${pct < 0 ? "−" : "+"}${figure} %`;
}

/** What changes of the drink, component by component; only what shows in its first decimal. */
export function changesTold(components: readonly ComponentChange[]): readonly ComponentChange[] {
  return components.filter((one) => Math.abs(one.change_pct) >= 0.05).slice(0, MOST_COMPONENTS);
}

/** The scale's end in per cent: round, and past the longest bar. */
export function scaleEnd(movers: readonly Mover[]): number {
  const most = Math.max(1, ...movers.map((mover) => mover.worst_pct));
  return [2, 5, 10, 20, 50, 100].find((end) => end >= most) ?? Math.ceil(most / 100) * 100;
}

/** Whether a drink comes or goes rather than moves. */
function comesOrGoes(mover: Mover): boolean {
  return mover.worst_label.endsWith("on the menu");
}

/** Whether an ingredient is put into a drink, or left out of it: then its share has no per cent to move by. */
export function putOrLeft(mover: Mover, label: string): "put in" | "left out" | undefined {
  const dose = mover.doses.find((one) => one.label === label);
  if (dose?.before === "none") return "put in";
  return dose?.after === "none" ? "left out" : undefined;
}

/** What moves most, in words: "Sweetness 3.2 %", "Lemon put in", "new on the menu". */
export function moverWords(mover: Mover): string {
  if (comesOrGoes(mover)) return mover.worst_label;
  return `${mover.worst_label} ${putOrLeft(mover, mover.worst_label) ?? `${mover.worst_pct.toFixed(1)} %`}`;
}

function Inside({ mover }: { mover: Mover }): JSX.Element {
  return (
    <ul class="mover-inside">
      {mover.refused.map((text) => (
        <li key={text}>
          <strong>Can no longer be made:</strong> {text}
        </li>
      ))}
      {mover.allergens.map((text) => (
        <li key={text}>
          <strong>Allergens:</strong> {text}
        </li>
      ))}
      {changesTold(mover.components).length > 0 && (
        <li>
          <p class="mover-told">
            The share of each in the drink, and what it comes to, where it changes most:
          </p>
          <dl class="mover-changes" aria-label={`What changes in ${mover.name}`}>
            {changesTold(mover.components).map((one) => (
              <div key={one.label}>
                <dt>{one.label}</dt>
                <dd>
                  {putOrLeft(mover, one.label) ?? signed(one.change_pct)} <small>{one.title}</small>
                </dd>
              </div>
            ))}
          </dl>
        </li>
      )}
      {mover.doses.map((dose) => (
        <li key={`${dose.title}${dose.label}`}>
          {dose.title}: {dose.label} <s>{dose.before}</s> <strong>{dose.after}</strong>
        </li>
      ))}
      {mover.doses.length === 0 && mover.refused.length === 0 && (
        <li>The same amounts are measured; what they weigh or hold is another.</li>
      )}
    </ul>
  );
}

export function Movers({ movers }: { movers: readonly Mover[] }): JSX.Element {
  if (movers.length === 0) return <p class="nothing">No recipe moves.</p>;
  const end = scaleEnd(movers.filter((mover) => !comesOrGoes(mover)));
  return (
    <ol class="movers" aria-label={`${counted(movers.length, "recipe")} that move, bars to ${end} %`}>
      {movers.map((mover) => (
        <li key={mover.drink}>
          <details>
            <summary>
              <span class="mover-name">{mover.name}</span>
              <span class="mover-bar" aria-hidden="true">
                <span
                  style={{
                    width: `${comesOrGoes(mover) ? 0 : Math.min(100, (100 * mover.worst_pct) / end)}%`,
                  }}
                />
              </span>
              <span class="mover-figure">
                {!comesOrGoes(mover) && (
                  <b>{putOrLeft(mover, mover.worst_label) ?? `${mover.worst_pct.toFixed(1)} %`}</b>
                )}{" "}
                {mover.worst_label}
                {mover.doses.length > 0 && `, ${counted(mover.doses.length, "dose")}`}
                {mover.refused.length > 0 && <strong class="mover-wrong"> refused</strong>}
                {mover.allergens.length > 0 && <strong class="mover-wrong"> allergens</strong>}
              </span>
            </summary>
            <Inside mover={mover} />
          </details>
        </li>
      ))}
    </ol>
  );
}
