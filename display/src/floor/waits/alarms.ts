/** What sounds and is read out, from how the queue changes and time passes. */
import { effect } from "@preact/signals";
import { now } from "../../link/clock";
import { openRows, type Queue } from "../../link/queue";
import { connection, floor, linkState, news, queue } from "../../link/shop";
import { play } from "../../screen/sound";
import type { Ticket } from "../../wire.gen";
import { counted } from "../../words/words";
import { type Limits, lateness, readTimer, runsAlone } from "./timers";

/** What a change brought: tickets rung in, and tickets whose hand-off was taken back. */
export interface News {
  readonly rungIn: readonly Ticket[];
  readonly back: readonly Ticket[];
}

/** The news of a change. A ticket unheard of that is ready was not rung in just now: its hand-off was taken back. */
export function newsOf(before: Queue, after: Queue): News {
  const known = new Set(before.tickets.map((ticket) => ticket.id));
  const fresh = after.tickets.filter((ticket) => !known.has(ticket.id));
  return {
    rungIn: fresh.filter((ticket) => ticket.state !== "ready"),
    back: fresh.filter((ticket) => ticket.state === "ready"),
  };
}

/** The news for those who hear the sheet; empty when nothing is worth saying. */
export function newsWords({ rungIn, back }: News): string {
  return [
    ...rungIn.map(({ number, drinks }) => `New: number ${number}, ${counted(drinks.length, "drink")}`),
    ...back.map(({ number }) => `Number ${number} is back at the hand-off`),
  ].join(". ");
}

/** What is due now, as names that stay the same while it is due: timers past their low end, late tickets. */
export function dueOf(
  held: Queue,
  at: number,
  limits: Limits | undefined,
): { timers: Set<string>; late: Set<string> } {
  const timers = new Set<string>();
  const late = new Set<string>();
  for (const { ticket, drink, build } of openRows(held)) {
    if (drink.state === "void") continue;
    if (lateness(ticket.rung_at, at, limits) === "late") late.add(ticket.id);
    for (const step of build.steps) {
      const state = drink.steps[step.number - 1];
      if (state?.state !== "running" || state.started_at == null || !step.duration || !runsAlone(step))
        continue;
      if (readTimer(state.started_at, step.duration, at).phase !== "running")
        timers.add(`${drink.id}/${step.number}`);
    }
  }
  return { timers, late };
}

const anyNew = (before: ReadonlySet<string>, after: ReadonlySet<string>): boolean =>
  [...after].some((one) => !before.has(one));

/** Sounds and news for a screen of the bar, until the returned function is called. */
export function watch(): () => void {
  const stopNews = connection.value?.onChange((before, after) => {
    const brought = newsOf(before, after);
    if (brought.rungIn.length + brought.back.length === 0) return;
    news.value = newsWords(brought);
    if (brought.rungIn.length > 0) play("new ticket");
  });
  let due: ReturnType<typeof dueOf> | undefined;
  const stopDue = effect(() => {
    const held = queue.value;
    const limits = floor.value;
    if (!held || !limits) return;
    const before = due;
    due = dueOf(held, now.value, limits);
    if (!before) return;
    if (anyNew(before.late, due.late)) play("late");
    else if (anyNew(before.timers, due.timers)) play("timer done");
  });
  let link = linkState.peek();
  const stopLink = effect(() => {
    if (linkState.value === "stale" && link === "live") play("late");
    link = linkState.value;
  });
  return () => {
    stopNews?.();
    stopDue();
    stopLink();
  };
}
