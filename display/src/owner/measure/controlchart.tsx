/** The control chart of the readings: mean and limits as lines, readings that stand out marked by shape. */
import "../../styles/owner/chart.css";
import type { JSX } from "preact";
import type { Weighing } from "../../wire.gen";
import { chart, FRAME } from "./chart";

const R = 5;

interface ChartProps {
  readonly readings: readonly number[];
  readonly weighing: Weighing | null;
  /** The readings' unit: "g" or "%". */
  readonly unit: string;
}

export function ControlChart({ readings, weighing, unit }: ChartProps): JSX.Element {
  const drawn = chart(readings, weighing);
  const right = FRAME.width - FRAME.right;
  const lines = [
    { name: "limit", y: drawn.high, value: weighing?.high, kind: "limit" },
    { name: "mean", y: drawn.mean, value: weighing?.mean, kind: "mean" },
    { name: "limit", y: drawn.low, value: weighing?.low, kind: "limit" },
  ];
  const line = drawn.points
    .map((point, index) => `${index === 0 ? "M" : "L"}${point.x} ${point.y}`)
    .join(" ");
  const described = weighing
    ? `${readings.length} readings, mean ${weighing.mean.toFixed(2)} ${unit}, limits ${weighing.low.toFixed(2)} and ${weighing.high.toFixed(2)} ${unit}.`
    : `${readings.length} readings.`;
  return (
    <svg
      class="control-chart"
      viewBox={`0 0 ${FRAME.width} ${FRAME.height}`}
      role="img"
      aria-label={described}
    >
      {drawn.ticks.map((tick) => (
        <g key={tick.value}>
          <path d={`M${FRAME.left} ${tick.y} H${right}`} class="chart-rule" />
          <text x={FRAME.left - 6} y={tick.y + 4} text-anchor="end">
            {Number(tick.value.toFixed(2))}
          </text>
        </g>
      ))}
      {lines.map(
        (one, index) =>
          one.y !== undefined && (
            <g key={index}>
              <path d={`M${FRAME.left} ${one.y} H${right}`} class={`chart-${one.kind}`} />
              <text x={right + 6} y={one.y + 4}>
                {one.name} {one.value?.toFixed(1)}
              </text>
            </g>
          ),
      )}
      <path d={line} class="chart-way" />
      {drawn.points.map((point) => (
        <g key={point.number} transform={`translate(${point.x} ${point.y})`}>
          {point.outside ? (
            <path d={`M0 ${-R * 2} L${R * 2} 0 L0 ${R * 2} L${-R * 2} 0 Z`} class="chart-outside" />
          ) : (
            <circle r={R} class="chart-point" />
          )}
          <text y={point.outside ? -R * 2 - 3 : -R - 4} text-anchor="middle" class="chart-number">
            {point.number}
          </text>
        </g>
      ))}
      <text x={FRAME.left - 6} y={FRAME.height - 6} text-anchor="end">
        {unit}
      </text>
    </svg>
  );
}
