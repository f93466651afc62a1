/** A business day in review: how long orders took, when, for which drinks, at which stations. */
import "../styles/times.css";
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { useAnswer } from "../link/answer";
import { Top } from "../screen/top";
import type { Spread, Times } from "../wire.gen";
import { counted, dayWords, minutes } from "../words/words";
import { Hours } from "./hours";
import { OrdersOfDay } from "./orders";
import { SpreadTable } from "./spread";

const FIGURES: readonly (readonly [keyof Omit<Spread, "count">, string])[] = [
  ["p50", "half within"],
  ["p90", "90 % within"],
  ["p95", "95 % within"],
  ["longest", "longest"],
];

function Figures({ title, spread }: { title: string; spread: Spread }): JSX.Element {
  return (
    <section class="figures-block" aria-label={title}>
      <h2>{title}</h2>
      <dl>
        <div>
          <dt>orders</dt>
          <dd>{spread.count}</dd>
        </div>
        {FIGURES.map(([key, name]) => {
          const value = spread[key];
          return (
            <div key={key}>
              <dt>{name}</dt>
              <dd>{value === null ? "–" : minutes(value)}</dd>
            </div>
          );
        })}
      </dl>
    </section>
  );
}

interface DayProps {
  readonly times: Times | undefined;
  readonly day: string | null;
  readonly onDay: (day: string) => void;
}

function DayChoice({ times, day, onDay }: DayProps): JSX.Element {
  const chosen = day ?? times?.day ?? "";
  return (
    <div class="day">
      <h1>{chosen ? dayWords(chosen) : "Times"}</h1>
      <label>
        Day with orders
        <select value={chosen} onChange={(event) => onDay(event.currentTarget.value)}>
          {!times?.days.includes(chosen) && <option value={chosen}>{chosen || "–"}, no orders</option>}
          {times?.days.map((one) => (
            <option key={one} value={one}>
              {one}
            </option>
          ))}
        </select>
      </label>
      <label>
        Any day
        <input
          type="date"
          value={chosen}
          onChange={(event) => {
            if (event.currentTarget.value) onDay(event.currentTarget.value);
          }}
        />
      </label>
    </div>
  );
}

function Review({ times, live }: { times: Times; live: boolean }): JSX.Element {
  const [chosen, setChosen] = useState<string | null>(null);
  const left = [
    times.open > 0 ? `${times.open} not handed off yet` : "",
    times.void > 0 ? `${times.void} void, not counted in the times` : "",
    times.remade > 0 ? `${counted(times.remade, "cup")} made again, each counted once` : "",
  ].filter((part) => part !== "");
  return (
    <>
      <div class="figures-row">
        <Figures title="Rung in to ready" spread={times.to_ready} />
        <Figures title="Rung in to handed off" spread={times.to_hand_off} />
      </div>
      {left.length > 0 && <p class="left-out">{left.join(" · ")}</p>}
      <section aria-label="By hour">
        <h2>By the hour in which they were rung in</h2>
        <Hours hours={times.by_hour} />
      </section>
      <div class="two-columns">
        <section aria-label="By drink">
          <h2>By drink, rung in to made</h2>
          <SpreadTable
            heading="Drink"
            rows={times.by_drink.map((one) => ({ id: one.drink, name: one.name, spread: one.to_made }))}
          />
        </section>
        <section aria-label="By station">
          <h2>By station, hands on a step</h2>
          <SpreadTable
            heading="Station"
            rows={times.by_station.map((one) => ({ id: one.station, name: one.name, spread: one.at_work }))}
          />
        </section>
      </div>
      {times.by_station.some((one) => one.at_work.count > 0) && (
        <p class="spread-key">
          Drawn: a bar from half of them to 95 %, a stroke at 90 %, an end mark at the longest.
        </p>
      )}
      <section aria-label="Orders">
        <h2>Orders</h2>
        <OrdersOfDay orders={times.orders} chosen={chosen} live={live} onChoose={setChosen} />
      </section>
    </>
  );
}

export function TimesPage(): JSX.Element {
  const [day, setDay] = useState<string | null>(null);
  const current = useAnswer<Times>("/api/times", true);
  const live = day === null || day === current.value?.day;
  const other = useAnswer<Times>(live ? null : `/api/times?day=${day}`, false);
  const { value: times, fault } = live ? current : other;
  return (
    <div class="times-page">
      <Top here="Times" />
      <main>
        <DayChoice times={times ?? current.value} day={day} onDay={setDay} />
        {fault && (
          <p class="fault" role="alert">
            {fault}
          </p>
        )}
        {!times && !fault && <p class="nothing">Reading the day …</p>}
        {times && times.orders.length === 0 && (
          <p class="nothing">
            No orders on this day.{" "}
            {live ? "Times appear here once an order is rung in and bumped." : "Choose another day."}
          </p>
        )}
        {times && times.orders.length > 0 && <Review times={times} live={live} />}
      </main>
    </div>
  );
}
