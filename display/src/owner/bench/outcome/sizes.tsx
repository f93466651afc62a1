/** The same drink at all sizes side by side: doses, errors, figures. */
import type { ComponentChildren, JSX } from "preact";
import { money } from "../../../link/shop";
import { Tally } from "../../../parts/tally";
import type { Balance, SizeOutcome, Step } from "../../../wire.gen";
import { doseOf, doseRows, fixed, signed, type Turn } from "./diff";
import { TurnMark } from "./turn";

interface DosesProps {
  readonly steps: readonly Step[];
  readonly before: readonly Step[];
  /** How far the ingredient is off the recipe in this size, in per cent, where that is known. */
  readonly error: number | undefined;
}

function Doses({ steps, before, error }: DosesProps): JSX.Element {
  const was = before.map(doseOf).join(" + ");
  const is = steps.map(doseOf).join(" + ");
  if (steps.length === 0) return <td>{was ? <TurnMark turn="gone" text={`was ${was}`} /> : "–"}</td>;
  return (
    <td class={was === is ? "" : "changed"}>
      <span class="dose">
        {is}{" "}
        {steps.length === 1 && steps[0]?.amount && (
          <Tally kind={steps[0].amount.kind} count={steps[0].amount.count} />
        )}
      </span>
      {error !== undefined && <small>{signed(error)}</small>}
      {was !== is && <TurnMark turn="other" text={`was ${was || "none"}`} />}
    </td>
  );
}

interface Row {
  readonly name: string;
  readonly value: (size: SizeOutcome, after: boolean) => number | null | undefined;
  readonly write: (value: number) => string;
}

const balance =
  (key: keyof Balance) =>
  (size: SizeOutcome, after: boolean): number | undefined =>
    (after ? size.after : size.before).balance?.[key];

const written =
  (decimals: number, unit: string) =>
  (value: number): string =>
    `${fixed(value, decimals)} ${unit}`;

const ROWS: readonly Row[] = [
  {
    name: "Most off what the recipe asks",
    value: (size, after) => (after ? size.after_error_pct : size.before_error_pct),
    write: (value) => `${fixed(Math.abs(value), 1)} %`,
  },
  { name: "Sweetness", value: balance("brix"), write: written(1, "% sugar") },
  { name: "Tea as brewed", value: balance("tea_pct"), write: written(0, "%") },
  { name: "Melt and water", value: balance("dilution_pct"), write: written(0, "%") },
  { name: "Served at", value: balance("temperature_c"), write: written(0, "°C") },
  { name: "Caffeine", value: balance("caffeine_mg"), write: written(0, "mg") },
  {
    name: "Left to the seal line",
    value: (size, after) => (after ? size.after : size.before).build?.fill.head_ml,
    write: written(0, "ml"),
  },
  {
    name: "Price",
    value: (size, after) => (after ? size.after : size.before).money?.price,
    write: (value) => money.value(value),
  },
  {
    name: "Margin",
    value: (size, after) => (after ? size.after : size.before).money?.margin,
    write: (value) => money.value(Math.round(value)),
  },
];

function errorOf(size: SizeOutcome | undefined, ingredient: string): number | undefined {
  return size?.after.errors.find((one) => one.ingredient === ingredient)?.error_pct;
}

function Cell({ row, size }: { row: Row; size: SizeOutcome }): JSX.Element {
  const was = row.value(size, false);
  const is = row.value(size, true);
  const text = typeof is === "number" ? row.write(is) : "–";
  const old = typeof was === "number" ? row.write(was) : "–";
  let turn: Turn = "same";
  if (text !== old)
    turn = typeof is === "number" && typeof was === "number" ? (is > was ? "more" : "less") : "other";
  return (
    <td class={turn === "same" ? "" : "changed"}>
      {text} {turn !== "same" && <TurnMark turn={turn} text={`was ${old}`} />}
    </td>
  );
}

function Head({ children }: { children: ComponentChildren }): JSX.Element {
  return <th scope="row">{children}</th>;
}

interface SizesProps {
  readonly sizes: readonly SizeOutcome[];
  /** The size that is tried. */
  readonly chosen: string;
  /** Whether there is a before to compare with. */
  readonly compared: boolean;
}

/** A size as if nothing had changed. */
function alone(size: SizeOutcome): SizeOutcome {
  return { ...size, before: size.after, before_error_pct: size.after_error_pct };
}

export function Sizes({ sizes: told, chosen, compared }: SizesProps): JSX.Element {
  const sizes = compared ? told : told.map(alone);
  const after = doseRows(sizes.map((size) => size.after.build));
  const before = doseRows(sizes.map((size) => size.before.build));
  const gone = before.filter((row) => !after.some((one) => one.ingredient === row.ingredient));
  return (
    <div class="scroll-x">
      <table class="ledger sizes">
        <thead>
          <tr>
            <th scope="col">The choices above, in every size</th>
            {sizes.map((size) => (
              <th scope="col" key={size.size}>
                {size.name}
                {size.size === chosen && " (above)"}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {sizes.some((size) => size.after.refusal) && (
            <tr>
              <Head>Refused</Head>
              {sizes.map((size) => (
                <td key={size.size}>{size.after.refusal ?? ""}</td>
              ))}
            </tr>
          )}
          {after.map((row) => {
            const old = before.find((one) => one.ingredient === row.ingredient);
            return (
              <tr key={row.ingredient}>
                <Head>{row.label}</Head>
                {row.cells.map((steps, index) => (
                  <Doses
                    key={sizes[index]?.size}
                    steps={steps}
                    before={old?.cells[index] ?? []}
                    error={errorOf(sizes[index], row.ingredient)}
                  />
                ))}
              </tr>
            );
          })}
          {gone.map((row) => (
            <tr key={row.ingredient}>
              <Head>{row.label}</Head>
              {row.cells.map((steps, index) => (
                <Doses key={sizes[index]?.size} steps={[]} before={steps} error={undefined} />
              ))}
            </tr>
          ))}
          {ROWS.map((row) => (
            <tr key={row.name} class="sizes-figure">
              <Head>{row.name}</Head>
              {sizes.map((size) => (
                <Cell key={size.size} row={row} size={size} />
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
