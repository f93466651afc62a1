/** One ticket's life as a strip: each drink's stretches from ring-in on, and what happened when. */
import type { JSX } from "preact";
import type { Life, Span } from "../wire.gen";
import { capital, minutes } from "../words/words";
import { share, ticks } from "./scale";

/** How each kind of stretch is called; its drawing differs in form as well as in colour. */
export const KIND_NAMES: Record<Span["kind"], string> = {
  waiting: "waiting for hands",
  step: "being worked on",
  idle: "between stations",
  made: "made, waiting to be handed off",
};

const KINDS: readonly Span["kind"][] = ["waiting", "step", "idle", "made"];

/** The stretch of time that the strip shows, in ms. */
export function extent(life: Life): { from: number; to: number } {
  const from = life.ticket.rung_at;
  const ends = life.drinks.flatMap((drink) => drink.spans.map((span) => span.end ?? life.now));
  return { from, to: Math.max(from + 1000, ...ends, ...life.marks.map((mark) => mark.at)) };
}

function Stretch({
  span,
  from,
  to,
  now,
}: {
  span: Span;
  from: number;
  to: number;
  now: number;
}): JSX.Element {
  const end = span.end ?? now;
  const left = share(span.start, from, to);
  const width = share(end, from, to) - left;
  const said = `${capital(span.label || KIND_NAMES[span.kind])}, ${minutes((end - span.start) / 1000)}`;
  return (
    <li class={`stretch stretch-${span.kind}`} style={{ left: `${left}%`, width: `${width}%` }} title={said}>
      <span>{width > 7 ? span.label : ""}</span>
    </li>
  );
}

export function Strip({ life }: { life: Life }): JSX.Element {
  const { from, to } = extent(life);
  const scale = ticks((to - from) / 1000, 6).filter((tick) => tick * 1000 <= to - from);
  return (
    <div class="strip">
      <div class="strip-plot">
        <div class="strip-scale" aria-hidden="true">
          {scale.map((tick) => (
            <span key={tick} style={{ left: `${share(from + tick * 1000, from, to)}%` }}>
              {minutes(tick)}
            </span>
          ))}
        </div>
        {life.drinks.map((drink) => (
          <div key={drink.id} class="strip-drink">
            <h3>
              {drink.title} {drink.words.length > 0 && <small>{drink.words.join(", ")}</small>}
            </h3>
            <ol aria-label={`Life of ${drink.title}`}>
              {drink.spans.map((span, index) => (
                <Stretch key={index} span={span} from={from} to={to} now={life.now} />
              ))}
            </ol>
          </div>
        ))}
        <ul class="strip-marks" aria-hidden="true">
          {life.marks.map((mark, index) => (
            <li key={index} style={{ left: `${share(mark.at, from, to)}%` }} />
          ))}
        </ul>
      </div>
      <ul class="strip-legend">
        {KINDS.map((kind) => (
          <li key={kind}>
            <span class={`stretch-key stretch-${kind}`} /> {KIND_NAMES[kind]}
          </li>
        ))}
      </ul>
      <ol class="strip-events">
        {life.marks.map((mark, index) => (
          <li key={index}>
            <b>{minutes((mark.at - from) / 1000)}</b> {mark.what}
          </li>
        ))}
      </ol>
    </div>
  );
}
