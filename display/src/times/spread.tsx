/** How times spread, one line each: from half of them (p50) to nineteen in twenty (p95), on one scale. */
import type { JSX } from "preact";
import type { Spread } from "../wire.gen";
import { minutes } from "../words/words";
import { share, ticks } from "./scale";

export interface SpreadRow {
  readonly id: string;
  readonly name: string;
  readonly spread: Spread;
}

const figures = (seconds: number | null): string => (seconds === null ? "–" : minutes(seconds));

/** The range as a bar from p50 to p95, a dot at p90, a stroke at the longest. */
function Range({ spread, most }: { spread: Spread; most: number }): JSX.Element | null {
  const { p50, p90, p95, longest } = spread;
  if (p50 === null || p90 === null || p95 === null || longest === null) return null;
  const at = (value: number): number => share(value, 0, most);
  return (
    <svg class="range" viewBox="0 0 100 10" preserveAspectRatio="none" aria-hidden="true">
      <path d={`M0 5 H${at(p50)}`} class="range-lead" />
      <path d={`M${at(p50)} 5 H${Math.max(at(p95), at(p50) + 0.4)}`} class="range-body" />
      <path d={`M${at(p90)} 0.5 V9.5`} class="range-ninety" />
      <path d={`M${at(longest)} 2 V8`} class="range-longest" />
    </svg>
  );
}

/** A table whose last column is drawn; the figures say the same in words. */
export function SpreadTable({ heading, rows }: { heading: string; rows: readonly SpreadRow[] }): JSX.Element {
  const counted = rows.filter((row) => row.spread.count > 0);
  const scale = ticks(Math.max(0, ...counted.map((row) => row.spread.longest ?? 0)), 4);
  const most = scale[scale.length - 1] ?? 1;
  if (counted.length === 0) return <p class="nothing">Nothing finished yet.</p>;
  return (
    <div class="scroll-x">
      <table class="ledger spreads">
        <thead>
          <tr>
            <th scope="col">{heading}</th>
            <th scope="col" class="figures">
              Count
            </th>
            <th scope="col" class="figures">
              Half
            </th>
            <th scope="col" class="figures">
              95 %
            </th>
            <th
              scope="col"
              class="spread-scale"
              aria-label="Drawn: bar from half to 95 %, stroke at 90 %, end mark at the longest"
            >
              {scale.map((tick) => (
                <span key={tick} style={{ left: `${share(tick, 0, most)}%` }}>
                  {minutes(tick)}
                </span>
              ))}
            </th>
          </tr>
        </thead>
        <tbody>
          {counted.map(({ id, name, spread }) => (
            <tr key={id}>
              <th scope="row">{name}</th>
              <td class="figures">{spread.count}</td>
              <td class="figures">{figures(spread.p50)}</td>
              <td class="figures">{figures(spread.p95)}</td>
              <td class="spread-drawn">
                <Range spread={spread} most={most} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
