/**
 * A timer is when it began and how long it takes, low to high; everything shown follows from these and
 * the time now. Nothing is counted down, so a page that slept shows the right figure when it wakes.
 */
import type { Duration, Floor, Step, StepState } from "../../wire.gen";
import { minutes, range, seconds } from "../../words/words";

/** Where a running timer stands. `left` is the share of the low end still to go, 1 to 0. */
export interface TimerReading {
  readonly phase: "running" | "ready" | "over";
  readonly leftSeconds: number;
  readonly left: number;
  readonly words: string;
  /** The same at a glance, no wider than the length of the timer: "18 s", "ready", "+41 s". */
  readonly glance: string;
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
      glance: seconds(leftSeconds),
    };
  }
  // Where there is no range, "ready" still gets a moment before "over": people are not that exact.
  const high = Math.max(duration.high_s, duration.low_s + GRACE_SECONDS);
  if (passed < high) return { phase: "ready", leftSeconds: 0, left: 0, words: "ready", glance: "ready" };
  const over = Math.floor(passed - high);
  const words = over < 1 ? "over" : `over ${seconds(over)}`;
  return { phase: "over", leftSeconds: 0, left: 0, words, glance: `+${seconds(over)}` };
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

/** When a ticket is soon late and late, in seconds after ring-in, as the book has it. */
export type Limits = Pick<Floor, "soon_s" | "late_s">;

/** The lateness of a ticket rung in at `rungAt` (ms), at the moment `at` (ms); nothing is late while no limits are known. */
export function lateness(rungAt: number, at: number, limits: Limits | undefined): Lateness {
  if (!limits) return "fine";
  const passed = (at - rungAt) / 1000;
  if (passed >= limits.late_s) return "late";
  return passed >= limits.soon_s ? "soon" : "fine";
}

/** A wait in a word and a figure: how long so far, or once it is soon late, how long is left. */
export function waitWords(
  rungAt: number,
  at: number,
  limits: Limits | undefined,
): { word: string; figure: string } {
  const passed = (at - rungAt) / 1000;
  const late = lateness(rungAt, at, limits);
  if (late === "soon" && limits)
    return { word: "late in", figure: minutes(Math.ceil(limits.late_s - passed)) };
  return { word: late === "late" ? "late" : "", figure: minutes(passed) };
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
