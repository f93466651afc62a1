/** The same drink at all sizes side by side: doses, errors, figures. */
import type { ComponentChildren, JSX } from "preact";
import { Tally } from "../parts/tally";
import { money } from "../shop";
import type { SizeOutcome, Step } from "../wire.gen";
import { dilution, doseOf, doseRows, fixed, type Turn } from "./diff";
import { TurnMark } from "./turn";

function Doses({ steps, before }: { steps: readonly Step[]; before: readonly Step[] }): JSX.Element {
  const was = before.map(doseOf).join(" + ");
  const is = steps.map(doseOf).join(" + ");
  if (steps.length === 0) return <td>{was ? <TurnMark turn="gone" text={`was ${was}`} /> : "–"}</td>;
  const error = steps
    .map((step) => step.amount?.error_pct ?? 0)
    .reduce((worst, one) => (Math.abs(one) > Math.abs(worst) ? one : worst), 0);
  return (
    <td class={was === is ? "" : "changed"}>
      <span class="dose">
        {is}{" "}
        {steps.length === 1 && steps[0]?.amount && (
          <Tally kind={steps[0].amount.kind} count={steps[0].amount.count} />
        )}
      </span>
      {Math.abs(error) > 0.05 && (
        <small>
          {error > 0 ? "+" : ""}
          {fixed(error, 1)} %
        </small>
      )}
      {was !== is && <TurnMark turn="other" text={`was ${was || "none"}`} />}
    </td>
  );
}

interface Row {
  readonly name: string;
  readonly value: (size: SizeOutcome, after: boolean) => number | null | undefined;
  readonly write: (value: number) => string;
}

const ROWS: readonly Row[] = [
  {
    name: "Furthest off",
    value: (size, after) => (after ? size.after_error_pct : size.before_error_pct),
    write: (value) => `${fixed(Math.abs(value), 1)} %`,
  },
  {
    name: "Sweetness",
    value: (size, after) => (after ? size.after : size.before).build?.balance.brix,
    write: (value) => `${fixed(value, 1)} °Bx`,
  },
  {
    name: "Melted ice in it",
    value: (size, after) => {
      const { build } = after ? size.after : size.before;
      return build ? dilution(build) : null;
    },
    write: (value) => `${fixed(value, 0)} %`,
  },
  {
    name: "Left to the line",
    value: (size, after) => (after ? size.after : size.before).build?.fill.head_ml,
    write: (value) => `${fixed(value, 0)} ml`,
  },
  {
    name: "Margin",
    value: (size, after) => (after ? size.after : size.before).money?.margin,
    write: (value) => money.value(Math.round(value)),
  },
];

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

export function Sizes({ sizes, chosen }: { sizes: readonly SizeOutcome[]; chosen: string }): JSX.Element {
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
                  <Doses key={sizes[index]?.size} steps={steps} before={old?.cells[index] ?? []} />
                ))}
              </tr>
            );
          })}
          {gone.map((row) => (
            <tr key={row.ingredient}>
              <Head>{row.label}</Head>
              {row.cells.map((steps, index) => (
                <Doses key={sizes[index]?.size} steps={[]} before={steps} />
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
