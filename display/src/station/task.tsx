/** One drink's work at the station. A cup that is not here yet is told of, and a touch on it asked about first. */
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import { bumpDrink, cellName, pending, touchCell } from "../floor/acts";
import { titleOf } from "../floor/cups/alike";
import { CellBody } from "../floor/cups/cell";
import { cellTimer, cellWords, showsTimer } from "../floor/cups/cells";
import { DoneMark, Head, headWords } from "../floor/cups/head";
import { Wait } from "../floor/waits/wait";
import { now } from "../link/clock";
import type { Row } from "../link/queue";
import { news } from "../link/shop";
import { Heard } from "../parts/heard";
import type { Task } from "./tasks";

/** So long a question stands, in ms; then a touch asks anew. */
const ASKED_MS = 6000;

interface TaskProps {
  readonly task: Task;
  /** Whether a touch may count now: not while rows have just moved under the finger. */
  readonly settled: () => boolean;
  readonly onDetails: (row: Row) => void;
}

function TaskCell({ task, settled }: Pick<TaskProps, "task" | "settled">): JSX.Element {
  const { row, cell } = task;
  const from = cell.state === "running" ? undefined : task.from;
  const [asked, setAsked] = useState(false);
  useEffect(() => {
    if (!asked) return undefined;
    const timer = setTimeout(() => setAsked(false), ASKED_MS);
    return () => clearTimeout(timer);
  }, [asked]);
  const asks = asked && from !== undefined;
  const timer = showsTimer(cell) ? cellTimer(cell, now.value) : undefined;
  const waits = pending.value.has(cellName(row, cell)) ? " cell-pending" : "";
  const question = from ? `Still at ${from.name}. Touch again if the cup is here` : "";
  const heard = from ? `${cellWords(cell, now.peek())}, from ${from.name}` : cellWords(cell, now.peek());
  return (
    <button
      type="button"
      class={`task-cell cell cell-${cell.state}${timer ? ` cell-timer-${timer.reading.phase}` : ""}${waits}`}
      onClick={() => {
        if (!settled()) return;
        if (from && !asked) {
          setAsked(true);
          news.value = question;
          return;
        }
        setAsked(false);
        void touchCell(row, cell);
      }}
    >
      <Heard as={asks ? `${question}. ${heard}` : heard}>
        {asks ? <span class="task-asks">{question}</span> : <CellBody cell={cell} />}
      </Heard>
    </button>
  );
}

export function TaskRow({ task, settled, onDetails }: TaskProps): JSX.Element {
  const { row, cell } = task;
  const from = cell.state === "running" ? undefined : task.from;
  return (
    <li class={from ? "task task-away" : "task"} data-drink={row.drink.id}>
      <div class="task-number">
        <span class="bracket-number">{row.ticket.number}</span>
        <Wait rungAt={row.ticket.rung_at} />
      </div>
      <button type="button" class="task-head" onClick={() => onDetails(row)}>
        <Heard as={headWords(row)}>
          <Head row={row} />
          {from && <span class="task-from">from {from.name}</span>}
        </Heard>
      </button>
      {task.bump ? (
        <button
          type="button"
          class="bump task-bump"
          aria-label={`Done, bump ${titleOf(row)} of number ${row.ticket.number}`}
          onClick={() => {
            if (settled()) void bumpDrink(row);
          }}
        >
          <DoneMark /> Bump{row.cups.length > 1 && ` ${row.cups.length}`}
        </button>
      ) : (
        <TaskCell task={task} settled={settled} />
      )}
    </li>
  );
}
