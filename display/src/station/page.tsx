/** One station alone: its column of the sheet, bigger, in queue order, with what comes next. */
import "../styles/floor/floor.css";
import "../styles/floor/station.css";
import type { JSX } from "preact";
import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import { BOUNCE_MS } from "../floor/acts";
import { BelowSheet } from "../floor/below";
import { Recalls } from "../floor/bumped";
import { bumps } from "../floor/bumps";
import { apart, folded } from "../floor/cups/alike";
import { Details } from "../floor/cups/details";
import { Empty } from "../floor/empty";
import { useBelow } from "../floor/more";
import { Struck } from "../floor/struck";
import { watch } from "../floor/waits/alarms";
import { openRows, type Row } from "../link/queue";
import { linkState, menu, queue } from "../link/shop";
import { Says } from "../screen/says";
import { Settings, SoundSwitch } from "../screen/settings";
import { Top } from "../screen/top";
import { Done } from "./done";
import { TaskRow } from "./task";
import { countWords, lately, tasksOf } from "./tasks";

/**
 * Tells whether the tasks have stood still for as long as a finger needs to see it: cups that arrive move others down, and
 * a touch meant for one must not fall on another.
 */
function useSettled(order: string): () => boolean {
  const moved = useRef({ order, at: Number.NEGATIVE_INFINITY });
  useLayoutEffect(() => {
    if (moved.current.order !== order) moved.current = { order, at: performance.now() };
  }, [order]);
  return () => performance.now() - moved.current.at >= BOUNCE_MS;
}

export function StationPage({ id }: { id: string }): JSX.Element {
  const [open, setOpen] = useState<Row | null>(null);
  const [settings, setSettings] = useState(false);
  const scroller = useRef<HTMLDivElement>(null);
  useEffect(watch, []);
  const held = queue.value;
  const stations = menu.value?.stations ?? [];
  const station = stations.find((one) => one.id === id);
  const rows = held && station ? folded(openRows(held), apart.value) : [];
  const tasks = station ? tasksOf(rows, station, stations) : [];
  const settled = useSettled(tasks.map((task) => task.row.drink.id).join(" "));
  const below = useBelow(scroller, tasks);
  return (
    <div class={`sheet-page station-page link-${linkState.value}`}>
      <Top here="Station">
        <SoundSwitch />
        <button type="button" class="plain" onClick={() => setSettings(true)}>
          Fit this screen
        </button>
      </Top>
      <main class="sheet-main station-main">
        <div class="station-head">
          <h1>
            {station?.name ?? (menu.value && id !== "" ? `There is no station “${id}”` : "Stations")}{" "}
            <span>{countWords(tasks)}</span>
          </h1>
          <nav class="station-ways" aria-label="Stations">
            {stations.map((one) => (
              <a
                key={one.id}
                href={`/station/${encodeURIComponent(one.id)}`}
                {...(one.id === id ? { "aria-current": "page" } : {})}
              >
                {one.name}
              </a>
            ))}
          </nav>
        </div>
        {!menu.value && <Empty />}
        {menu.value && !station && (
          <p class="empty">
            Choose a station.
            <span>Each has a page of its own with what it has to do, bigger than on the bar sheet.</span>
          </p>
        )}
        {station && tasks.length === 0 && (
          <p class="empty">
            Nothing to do at {station.name}.<span>Drinks appear here as they are rung in.</span>
          </p>
        )}
        {tasks.length > 0 && (
          <div class="tasks-frame">
            <div class="tasks-scroll" ref={scroller}>
              <ol class="tasks">
                {tasks.map((task) => (
                  <TaskRow key={task.row.drink.id} task={task} settled={settled} onDetails={setOpen} />
                ))}
              </ol>
            </div>
            {below.drinks.length > 0 && (
              <BelowSheet
                rows={tasks.map((task) => task.row).filter((row) => below.drinks.includes(row.drink.id))}
                stations={[]}
                below={below}
              />
            )}
          </div>
        )}
      </main>
      <Says />
      <Struck />
      <Done list={held && station ? lately(rows, bumps(held), station) : []} />
      <Recalls />
      {open && <Details row={open} onClose={() => setOpen(null)} />}
      {settings && <Settings onClose={() => setSettings(false)} />}
    </div>
  );
}
