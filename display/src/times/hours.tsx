/** Time to ready by hour: bars for half of the orders, points for nine in ten, and the same as a table. */
import type { JSX } from "preact";
import { useEffect, useRef } from "preact/hooks";
import uPlot from "uplot";
import "uplot/dist/uPlot.min.css";
import type { HourTimes } from "../wire.gen";
import { minutes } from "../words/words";
import { ticks } from "./scale";

const HEIGHT = 220;

/** "14–15", the hour that begins at 14. */
export function hourWords(hour: number): string {
  return `${String(hour).padStart(2, "0")}–${String((hour + 1) % 24).padStart(2, "0")}`;
}

/** Columns for the plot: hours without a gap from first to last, then p50 and p90 in seconds. Pure. */
export function columnsOf(hours: readonly HourTimes[]): [number[], (number | null)[], (number | null)[]] {
  const known = hours.filter((one) => one.to_ready.count > 0);
  // A business day may run past midnight: hours keep the order in which the service lists them.
  const first = known[0]?.hour ?? 0;
  const last = known[known.length - 1]?.hour ?? first;
  const span = ((last - first + 24) % 24) + 1;
  const x = Array.from({ length: span }, (_, index) => first + index);
  const of = (hour: number): HourTimes | undefined => known.find((one) => one.hour === hour % 24);
  return [
    x,
    x.map((hour) => of(hour)?.to_ready.p50 ?? null),
    x.map((hour) => of(hour)?.to_ready.p90 ?? null),
  ];
}

function token(name: string): string {
  return getComputedStyle(document.body).getPropertyValue(name).trim();
}

function options(width: number, columns: readonly number[], most: number): uPlot.Options {
  const first = columns[0] ?? 0;
  const last = columns[columns.length - 1] ?? first;
  const scale = ticks(most, 4);
  const font = `14px ${token("--face")}`;
  const axis = {
    stroke: token("--ink"),
    font,
    grid: { stroke: token("--rule"), width: 1 },
    ticks: { show: false },
  };
  return {
    width,
    height: HEIGHT,
    legend: { show: false },
    cursor: { show: false },
    scales: {
      // Half an hour of room at each side; at least a few hours, so that one bar does not fill the plot.
      x: { time: false, range: [first - 0.6, Math.max(last, first + 5) + 0.6] },
      y: { range: [0, (scale[scale.length - 1] ?? 60) * 1.02] },
    },
    axes: [
      {
        ...axis,
        grid: { show: false },
        splits: () => [...columns],
        values: (_plot, splits) => splits.map((hour) => hourWords(hour % 24)),
      },
      { ...axis, size: 56, splits: () => scale, values: (_plot, splits) => splits.map(minutes) },
    ],
    series: [
      {},
      {
        label: "half within",
        fill: token("--fine"),
        width: 0,
        ...(uPlot.paths.bars ? { paths: uPlot.paths.bars({ size: [0.5, 60] }) } : {}),
        points: { show: false },
      },
      {
        label: "nine in ten within",
        stroke: token("--ink"),
        width: 0,
        paths: () => null,
        points: { show: true, size: 12, stroke: token("--ink"), fill: token("--soon"), width: 2 },
      },
    ],
  };
}

export function Hours({ hours }: { hours: readonly HourTimes[] }): JSX.Element {
  const place = useRef<HTMLDivElement>(null);
  const known = hours.filter((one) => one.to_ready.count > 0);
  const drawn = JSON.stringify(known);
  useEffect(() => {
    const box = place.current;
    if (!box || known.length === 0) return undefined;
    const columns = columnsOf(hours);
    const most = Math.max(1, ...columns[1].map((one) => one ?? 0), ...columns[2].map((one) => one ?? 0));
    const plot = new uPlot(options(box.clientWidth, columns[0], most), columns, box);
    const watcher = new ResizeObserver(() => plot.setSize({ width: box.clientWidth, height: HEIGHT }));
    watcher.observe(box);
    return () => {
      watcher.disconnect();
      plot.destroy();
    };
  }, [drawn]);
  if (known.length === 0) return <p class="nothing">No order was ready yet on this day.</p>;
  return (
    <div class="hours">
      <div>
        <div
          class="hours-plot"
          ref={place}
          role="img"
          aria-label="Time to ready by hour; the table says the same."
        />
        <p class="hours-legend">
          <span class="key-half" /> half were ready within <span class="key-ninety" /> nine in ten were ready
          within
        </p>
      </div>
      <table class="ledger">
        <thead>
          <tr>
            <th scope="col">Hour</th>
            <th scope="col" class="figures">
              Orders
            </th>
            <th scope="col" class="figures">
              Half
            </th>
            <th scope="col" class="figures">
              90 %
            </th>
          </tr>
        </thead>
        <tbody>
          {known.map(({ hour, to_ready }) => (
            <tr key={hour}>
              <th scope="row">{hourWords(hour)}</th>
              <td class="figures">{to_ready.count}</td>
              <td class="figures">{minutes(to_ready.p50 ?? 0)}</td>
              <td class="figures">{minutes(to_ready.p90 ?? 0)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
