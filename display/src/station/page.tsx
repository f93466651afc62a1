/** One station alone: its column of the sheet, bigger, in queue order, with what comes next. */
import "../styles/sheet.css";
import "../styles/cells.css";
import "../styles/sheet-feet.css";
import "../styles/sheet-hand.css";
import "../styles/station.css";
import type { JSX } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { cellName, pending, touchCell } from "../bar/acts";
import { watch } from "../bar/alarms";
import { apart, cupsOf, folded } from "../bar/alike";
import { BelowSheet } from "../bar/below";
import { Wait } from "../bar/bracket";
import { Recalls } from "../bar/bumped";
import { CellBody } from "../bar/cell";
import { Details } from "../bar/details";
import { useBelow } from "../bar/more";
import { Empty, Says } from "../bar/page";
import { Head } from "../bar/row";
import { Settings, SoundSwitch } from "../bar/settings";
import { type Cell, cellsOf, cellTimer, cellWords, showsTimer } from "../bar/sheet";
import { Struck } from "../bar/struck";
import { now } from "../clock";
import { Top } from "../parts/top";
import { openRows, type Row } from "../queue";
import { linkState, menu, queue } from "../shop";
import { counted } from "../words";
import { Done } from "./done";

interface Task {
  readonly row: Row;
  readonly cell: Cell;
}

function TaskRow({ task, onDetails }: { task: Task; onDetails: (row: Row) => void }): JSX.Element {
  const { row, cell } = task;
  const timer = showsTimer(cell) ? cellTimer(cell, now.value) : undefined;
  const waits = pending.value.has(cellName(row, cell)) ? " cell-pending" : "";
  return (
    <li class="task" data-drink={row.drink.id}>
      <div class="task-number">
        <span class="bracket-number">{row.ticket.number}</span>
        <Wait rungAt={row.ticket.rung_at} />
      </div>
      <button type="button" class="task-head" onClick={() => onDetails(row)}>
        <Head row={row} />
      </button>
      <button
        type="button"
        class={`task-cell cell cell-${cell.state}${timer ? ` cell-timer-${timer.reading.phase}` : ""}${waits}`}
        aria-label={cellWords(cell, now.peek())}
        onClick={() => void touchCell(row, cell)}
      >
        <CellBody cell={cell} />
      </button>
    </li>
  );
}

export function StationPage({ id }: { id: string }): JSX.Element {
  const [open, setOpen] = useState<Row | null>(null);
  const [settings, setSettings] = useState(false);
  const scroller = useRef<HTMLDivElement>(null);
  useEffect(watch, []);
  const held = queue.value;
  const stations = menu.value?.stations ?? [];
  const station = stations.find((one) => one.id === id);
  const all: Task[] =
    held && station
      ? folded(openRows(held), apart.value)
          .filter((row) => row.drink.state !== "void")
          .flatMap((row) => cellsOf(row, [station]).map((cell) => ({ row, cell })))
      : [];
  const tasks = all.filter(({ cell }) => cell.state === "todo" || cell.state === "running");
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
            <span>{station ? counted(cupsOf(tasks.map((task) => task.row)), "drink") : ""}</span>
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
                  <TaskRow key={task.row.drink.id} task={task} onDetails={setOpen} />
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
      <Done tasks={all} />
      <Recalls />
      {open && <Details row={open} onClose={() => setOpen(null)} />}
      {settings && <Settings onClose={() => setSettings(false)} />}
    </div>
  );
}
