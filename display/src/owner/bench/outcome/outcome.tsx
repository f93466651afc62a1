/** What the drink comes to before and after the edits: cup, figures, steps. */
import { Fragment, type JSX } from "preact";
import { Cup } from "../../../line/cup";
import { money } from "../../../link/shop";
import { Tally } from "../../../parts/tally";
import type { Outcome } from "../../../wire.gen";
import { desk, tryMenu } from "../../book/data";
import { heldAt, same } from "../../book/edits";
import { type FigureGroup, figureGroups, type StepRow, stepRows } from "./diff";
import { TurnMark } from "./turn";

/** An error worth telling in a build, in per cent: below it, it is rounding of the last figure. */
const TELLING_PCT = 0.05;

function Figures({ group, edited }: { group: FigureGroup; edited: boolean }): JSX.Element {
  return (
    <table class="ledger bench-figures">
      <thead>
        <tr>
          <th scope="col">{group.name}</th>
          {edited && (
            <th scope="col" class="figures">
              Before
            </th>
          )}
          <th scope="col" class="figures">
            {edited ? "After" : <span class="unseen">As it is</span>}
          </th>
          {edited && <th scope="col">Change</th>}
        </tr>
      </thead>
      <tbody>
        {group.rows.map((row) => (
          <tr key={row.name} class={row.turn === "same" ? "" : "changed"}>
            <th scope="row">{row.name}</th>
            {edited && <td class="figures">{row.before}</td>}
            <td class="figures">{row.after}</td>
            {edited && <td>{row.turn === "same" ? "" : <TurnMark turn={row.turn} text={row.change} />}</td>}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Step({ row }: { row: StepRow }): JSX.Element {
  const { step, turn, was } = row;
  const { amount } = step;
  return (
    <li class={turn === "same" ? "" : `changed step-${turn}`}>
      <span class="step-text">
        {step.text}
        {amount && <Tally kind={amount.kind} count={amount.count} />}
      </span>
      {amount && Math.abs(amount.error_pct) > TELLING_PCT && (
        <span class="step-error">
          {amount.error_pct > 0 ? "+" : "−"}
          {Math.abs(amount.error_pct).toFixed(1)} % of {amount.wanted_ml.toFixed(1)} ml wanted
        </span>
      )}
      {turn !== "same" && (
        <span class="step-was">
          <TurnMark turn={turn} />
          {was && ` was ${was}`}
        </span>
      )}
      {step.caution && <span class="step-caution">{step.caution}</span>}
    </li>
  );
}

function Says({ outcome }: { outcome: Outcome }): JSX.Element | null {
  const build = outcome.build;
  if (!build || build.cautions.length + build.notes.length === 0) return null;
  return (
    <ul class="cupfacts-says">
      {build.cautions.map(({ words }) => (
        <li key={words} class="caution">
          {words}
        </li>
      ))}
      {build.notes.map(({ words }) => (
        <li key={words}>{words}</li>
      ))}
    </ul>
  );
}

/** Minor units with a fraction, to a tenth of the smallest coin where they have one. */
function finely(minor: number): string {
  return money.value(Math.round(minor * 10) / 10);
}

/** Whose factors energy goes by in the edited book. */
function factors(): string {
  const held = desk.value;
  const shop = held?.book.files.find((one) => one.file === "shop.toml");
  const written = shop?.tables
    .find((table) => same(table.path, ["shop"]))
    ?.entries.find((entry) => entry.key === "energy")?.value;
  const now = held ? heldAt(held.edits, "shop.toml", ["shop", "energy"], written ?? null) : null;
  return typeof now === "string" ? now : "EU";
}

interface OutcomeProps {
  readonly before: Outcome;
  readonly after: Outcome;
  readonly edited: boolean;
}

export function OutcomeView({ before, after, edited }: OutcomeProps): JSX.Element {
  const base = edited ? before : after;
  const groups = figureGroups(base, after, finely, factors());
  const stations = tryMenu.value?.stations ?? [];
  const steps = stepRows(base.build, after.build);
  return (
    <div class={`outcome${edited ? " edited" : ""}`}>
      {after.refusal && (
        <p class="refusal" role="alert">
          <strong>Cannot be made:</strong> {after.refusal}
        </p>
      )}
      <div class="outcome-cup">
        {after.build && <Cup fill={after.build.fill} />}
        <Says outcome={after} />
      </div>
      <div class="outcome-figures">
        {groups.map((group) => (
          <Figures key={group.name} group={group} edited={edited} />
        ))}
      </div>
      {after.build && (
        <section class="outcome-steps" aria-label="The build">
          <h2>The build</h2>
          <ol>
            {steps.map((row, index) => {
              const first = index === 0 || steps[index - 1]?.step.station !== row.step.station;
              const name = stations.find((one) => one.id === row.step.station)?.name ?? row.step.station;
              return (
                <Fragment key={index}>
                  {first && <li class="station-name">{name}</li>}
                  <Step row={row} />
                </Fragment>
              );
            })}
          </ol>
        </section>
      )}
    </div>
  );
}
