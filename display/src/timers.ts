/**
 * A timer is when it began and how long it takes, low to high; everything shown follows from these and
 * the time now. Nothing is counted down, so a page that slept shows the right figure when it wakes.
 */
import type { Duration, Step, StepState } from "./wire.gen";
import { range, seconds } from "./words";

/** Where a running timer stands. `left` is the share of the low end still to go, 1 to 0. */
export interface TimerReading {
  readonly phase: "running" | "ready" | "over";
  readonly leftSeconds: number;
  readonly left: number;
  readonly words: string;
}

/** Reads a timer that began at `startedAt` (ms) at the moment `at` (ms). */
export function readTimer(startedAt: number, duration: Duration, at: number): TimerReading {
  const passed = Math.max(0, (at - startedAt) / 1000);
  if (passed < duration.low_s) {
    const leftSeconds = Math.ceil(duration.low_s - passed);
    return {
      phase: "running",
      leftSeconds,
      left: (duration.low_s - passed) / duration.low_s,
      words: seconds(leftSeconds),
    };
  }
  // Where there is no range, "ready" still gets a moment before "over": people are not that exact.
  const high = Math.max(duration.high_s, duration.low_s + GRACE_SECONDS);
  if (passed < high) return { phase: "ready", leftSeconds: 0, left: 0, words: "ready" };
  const over = Math.floor(passed - high);
  return { phase: "over", leftSeconds: 0, left: 0, words: over < 1 ? "over" : `over ${seconds(over)}` };
}

/** Seconds that a timer without a range stays "ready" before it is called "over". */
export const GRACE_SECONDS = 10;

/** "30–60 s", what a step's timer will take. */
export function lengthWords(duration: Duration): string {
  return range(duration.low_s, duration.high_s);
}

/** Whether a step runs by itself once started, so that starting it is an act of its own. */
export function runsAlone(step: Step): boolean {
  return step.duration !== null && !step.duration.attended && step.duration.low_s > 0;
}

/** How late a ticket is, by how long it has waited. */
export type Lateness = "fine" | "soon" | "late";

/** Minutes after which a ticket is "soon" and "late". */
export const SOON_MINUTES = 5;
export const LATE_MINUTES = 8;

/** The lateness of a ticket rung in at `rungAt` (ms), at the moment `at` (ms). */
export function lateness(rungAt: number, at: number): Lateness {
  const minutes = (at - rungAt) / 60_000;
  if (minutes >= LATE_MINUTES) return "late";
  return minutes >= SOON_MINUTES ? "soon" : "fine";
}

/** What a touch on a cell does: finish these steps, then start the timer of that one (if any). */
export interface CellAct {
  readonly finish: readonly number[];
  readonly start: number | null;
}

/**
 * What touching a cell does. The steps before the first timer that has not been started are finished and
 * that timer starts; where none waits to be started, everything open in the cell is finished.
 */
export function cellAct(steps: readonly Step[], states: readonly StepState[]): CellAct {
  const finish: number[] = [];
  for (const step of steps) {
    const state = states[step.number - 1]?.state ?? "todo";
    if (state === "done") continue;
    if (state === "todo" && runsAlone(step)) return { finish, start: step.number };
    finish.push(step.number);
  }
  return { finish, start: null };
}
