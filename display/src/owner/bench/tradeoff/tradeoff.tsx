/** Taste against hands: what each patience makes of the whole menu, as two plots and in figures, to choose from. */
import "../../../styles/owner/tradeoff.css";
import { signal } from "@preact/signals";
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import { ask, reason, send } from "../../../link/api";
import { Dialog } from "../../../parts/dialog";
import type { TradeOff, TradePoint } from "../../../wire.gen";
import { desk, edit, edits } from "../../book/data";
import { setKey } from "../../book/edits";
import { toSend } from "../../book/sending";
import { told } from "../forms/sheet";
import { FRAME, HANDS, type Line, OFF, plot, type Series } from "./tradeplot";

/** Whether the panel is open. */
export const weighingHands = signal(false);

/** How long to wait before asking again, in ms: it is reckoned beside the service and tells nobody by itself. */
const PACE_MS = 1000;

/** The reckoning of the book with the edits made, begun when the panel opens. */
function useTradeOff(): { got: TradeOff | undefined; wrong: string } {
  const [found, setFound] = useState<{ got: TradeOff | undefined; wrong: string }>({
    got: undefined,
    wrong: "",
  });
  useEffect(() => {
    const stale = new AbortController();
    let timer: ReturnType<typeof setTimeout> | undefined;
    const take = (got: TradeOff): void => {
      if (stale.signal.aborted) return;
      setFound({ got, wrong: "" });
      if (got.state === "running") {
        timer = setTimeout(() => {
          ask<TradeOff>("/api/owner/trade-off", stale.signal).then(take, fail);
        }, PACE_MS);
      }
    };
    const fail = (error: unknown): void => {
      if (!stale.signal.aborted) setFound((before) => ({ ...before, wrong: reason(error) }));
    };
    const body = { edits: toSend(edits.peek()) };
    send<TradeOff>("/api/owner/trade-off", body, { signal: stale.signal }).then(take, fail);
    return () => {
      stale.abort();
      clearTimeout(timer);
    };
  }, []);
  return found;
}

/** Each line has a mark of its own form, beside its name. */
const MARKS = ["M-5 -5 H5 V5 H-5 Z", "M0 -6 L6 5 H-6 Z", "M0 -6 L6 0 L0 6 L-6 0 Z"];
const DASHES = ["none", "7 4", "2 4"];

function LineOf({ line, index, unit }: { line: Line; index: number; unit: string }): JSX.Element {
  const way = line.dots.map((dot, place) => `${place === 0 ? "M" : "L"}${dot.x} ${dot.y}`).join(" ");
  const last = line.dots.at(-1);
  return (
    <g>
      <path d={way} class="trade-way" stroke-dasharray={DASHES[index]} />
      {line.dots.map((dot) => (
        <path key={dot.x} d={MARKS[index]} transform={`translate(${dot.x} ${dot.y})`} class="trade-mark" />
      ))}
      {last && (
        <text x={last.x + 12} y={line.nameY + 4}>
          {line.name} {last.value.toFixed(1)} {unit}
        </text>
      )}
    </g>
  );
}

interface PlotProps {
  readonly title: string;
  readonly unit: string;
  readonly points: readonly TradePoint[];
  readonly series: readonly Series[];
  /** The patience that is in the book by now. */
  readonly own: number;
}

function PlotOf({ title, unit, points, series, own }: PlotProps): JSX.Element {
  const drawn = plot(points, series);
  const right = FRAME.width - FRAME.right;
  const bottom = FRAME.height - FRAME.bottom;
  const here = drawn.across.find(({ patience }) => patience === own);
  return (
    <figure class="trade-plot">
      <figcaption>{title}</figcaption>
      <svg
        viewBox={`0 0 ${FRAME.width} ${FRAME.height}`}
        role="img"
        aria-label={`${title}; in figures below.`}
      >
        {drawn.up.map((tick) => (
          <g key={tick.value}>
            <path d={`M${FRAME.left} ${tick.y} H${right}`} class="trade-rule" />
            <text x={FRAME.left - 6} y={tick.y + 4} text-anchor="end">
              {Number(tick.value.toFixed(2))}
            </text>
          </g>
        ))}
        {here && <path d={`M${here.x} ${FRAME.top} V${bottom}`} class="trade-own" />}
        {drawn.across.map(({ x, patience }) => (
          <text
            key={patience}
            x={x}
            y={bottom + 17}
            text-anchor="middle"
            class={patience === own ? "trade-here" : ""}
          >
            {patience} s
          </text>
        ))}
        <text x={(FRAME.left + right) / 2} y={FRAME.height - 6} text-anchor="middle">
          patience{here ? "; upright: in the book" : ""}
        </text>
        {drawn.lines.map((line, index) => (
          <LineOf key={line.name} line={line} index={index} unit={unit} />
        ))}
      </svg>
    </figure>
  );
}

function take(patience: number): void {
  const tables = desk.peek()?.book.files.find((one) => one.file === "shop.toml")?.tables ?? [];
  const hands = tables.find((one) => one.path.length === 1 && one.path[0] === "hands");
  const written = hands?.entries.find((one) => one.key === "patience")?.value ?? null;
  edit(setKey(edits.peek(), "shop.toml", ["hands", "patience"], `${patience} s`, written));
  told.value = `Patience is ${patience} s, to be saved.`;
  weighingHands.value = false;
}

function Figures({ points, own }: { points: readonly TradePoint[]; own: number }): JSX.Element {
  return (
    <table class="ledger">
      <thead>
        <tr>
          <th scope="col">Patience</th>
          <th scope="col" class="figures">
            Fussy builds
          </th>
          <th scope="col" class="figures">
            Hands, a drink
          </th>
          <th scope="col" class="figures">
            Half the parts within
          </th>
          <th scope="col" class="figures">
            95 of 100 within
          </th>
          <th scope="col">
            <span class="unseen">Choose</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {points.map((point) => (
          <tr key={point.patience}>
            <th scope="row">{point.patience} s</th>
            <td class="figures">{point.fussy_pct.toFixed(1)} %</td>
            <td class="figures">{point.seconds.toFixed(1)} s</td>
            <td class="figures">{point.median_pct.toFixed(1)} %</td>
            <td class="figures">{point.p95_pct.toFixed(1)} %</td>
            <td>
              {point.patience === own ? (
                "in the book"
              ) : (
                <button type="button" class="plain" onClick={() => take(point.patience)}>
                  Take {point.patience} s
                </button>
              )}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function progress(got: TradeOff): string {
  const share = got.total > 0 ? Math.floor((100 * got.done) / got.total) : 0;
  if (got.state === "running") return `Reckoning: ${share} %.`;
  if (got.state === "failed") return "It ended early. Close this and try again.";
  const [first] = got.points;
  const refused = first ? `, of which ${first.refused} are refused` : "";
  return `From ${got.lines} lines drawn from the whole menu (seed ${got.seed})${refused}.`;
}

function Panel(): JSX.Element {
  const { got, wrong } = useTradeOff();
  return (
    <Dialog
      title="Taste against hands"
      className="trade-off"
      onClose={() => {
        weighingHands.value = false;
      }}
    >
      <p>
        Patience is the seconds of hands that are worth it to bring an ingredient that is 10 % off exactly to
        the recipe. Where the lines go flat, more of it buys nothing. Plain drinks are made as written
        whatever it is, and sweeteners, held to the nearest stroke anyway, are left out.
      </p>
      {wrong && (
        <p class="fault" role="alert">
          {wrong}
        </p>
      )}
      {got && (
        <>
          {got.state === "running" && (
            <progress value={got.done} max={Math.max(1, got.total)} aria-label="Builds looked at" />
          )}
          <p role="status">{progress(got)}</p>
          {got.points.length > 0 && (
            <>
              <div class="trade-plots">
                <PlotOf
                  title="Off, and fussy, %"
                  unit="%"
                  points={got.points}
                  series={OFF}
                  own={got.patience}
                />
                <PlotOf
                  title="Hands measuring, s"
                  unit="s"
                  points={got.points}
                  series={HANDS}
                  own={got.patience}
                />
              </div>
              <Figures points={got.points} own={got.patience} />
            </>
          )}
        </>
      )}
      {!got && !wrong && <p role="status">Beginning …</p>}
    </Dialog>
  );
}

export function TradeOffPanel(): JSX.Element | null {
  return weighingHands.value ? <Panel /> : null;
}
