/** The bar sheet as values: rows into cells, and how much lies ahead of each station. Pure. */
import type { Row } from "../../link/queue";
import type { Station, Step, StepState } from "../../wire.gen";
import { figure, seconds } from "../../words/words";
import { cellAct, lengthWords, readTimer, runsAlone, type TimerReading } from "../waits/timers";
import { cupsOf } from "./alike";

/** What one station does for one drink. */
export interface Cell {
  readonly station: Station;
  readonly steps: readonly Step[];
  readonly states: readonly StepState[];
  readonly state: "none" | "todo" | "running" | "done";
}

/** The state of a step of a drink, by its number from 1. */
export function stepState(states: readonly StepState[], step: Step): StepState["state"] {
  return states[step.number - 1]?.state ?? "todo";
}

/** The cells of a row, one a station, in counter order. */
export function cellsOf(row: Row, stations: readonly Station[]): Cell[] {
  const states = row.drink.steps;
  return stations.map((station) => {
    const steps = row.build.steps.filter((step) => step.station === station.id);
    const each = steps.map((step) => stepState(states, step));
    let state: Cell["state"] = "todo";
    if (steps.length === 0) state = "none";
    else if (each.every((one) => one === "done")) state = "done";
    else if (each.some((one) => one === "running")) state = "running";
    return { station, steps, states, state };
  });
}

/** The running timer of a cell: the step whose timer has most to go or is most over, read at `at`. */
export function cellTimer(cell: Cell, at: number): { step: Step; reading: TimerReading } | undefined {
  for (const step of cell.steps) {
    const state = cell.states[step.number - 1];
    if (state?.state !== "running" || state.started_at == null || !step.duration) continue;
    return { step, reading: readTimer(state.started_at, step.duration, at) };
  }
  return undefined;
}

/** Whether a running timer of the cell needs no hands, so that it is drawn as one. */
export function showsTimer(cell: Cell): boolean {
  return cell.steps.some((step) => runsAlone(step) && stepState(cell.states, step) === "running");
}

/** Drinks that still need each station, among these rows. */
export function aheadOf(
  rows: readonly Row[],
  stations: readonly Station[],
): { station: Station; drinks: number }[] {
  return stations.map((station) => ({
    station,
    drinks: cupsOf(
      rows.filter((row) =>
        row.build.steps.some(
          (step) => step.station === station.id && stepState(row.drink.steps, step) !== "done",
        ),
      ),
    ),
  }));
}

/** The cells that are done, done last first. */
export function doneLast<Task extends { readonly cell: Cell }>(tasks: readonly Task[]): Task[] {
  const at = ({ cell }: Task): number =>
    Math.max(...cell.steps.map((step) => cell.states[step.number - 1]?.finished_at ?? 0));
  return tasks.filter(({ cell }) => cell.state === "done").sort((one, other) => at(other) - at(one));
}

/** Whether an amount is read off in millilitres rather than counted. */
export function isPoured(step: Step): boolean {
  return step.amount?.kind === "jug" || step.amount?.kind === "jigger";
}

/** An amount as a figure alone: "2", "1½", "100", "7". */
export function amountFigure(step: Step): string {
  if (!step.amount) return "";
  return isPoured(step) ? String(Math.round(step.amount.count)) : figure(step.amount.count);
}

/** Whether another step of these measures the same ingredient with another tool. */
export function measuredTwice(steps: readonly Step[], step: Step): boolean {
  return steps.some(
    (other) =>
      other !== step &&
      other.ingredient !== null &&
      other.ingredient === step.ingredient &&
      other.amount?.tool !== step.amount?.tool,
  );
}

/** What closes a cup takes as long as it takes: nobody goes by its time. */
const CLOSING: ReadonlySet<string> = new Set(["seal", "lid"]);

/** How long a step takes, "15–20 s"; empty where it takes no time, or nobody goes by it. */
export function lengthOf(step: Step): string {
  if (!step.duration || step.duration.high_s <= 0 || CLOSING.has(step.action)) return "";
  return lengthWords(step.duration);
}

/** How warm a step makes what it heats, "65 °C"; empty where it heats nothing. */
export function heatOf(step: Step): string {
  return step.celsius === null ? "" : `${Math.round(step.celsius)} °C`;
}

/** Whether something is poured hot with neither its name nor a heat saying so. The caution of a step is that it is hot. */
export function goesInHot(step: Step): boolean {
  const poured = step.ingredient !== null && step.amount !== null && step.action !== "pull";
  return poured && step.celsius === null && step.caution !== null && !/\bhot\b/i.test(step.short);
}

/** An amount as said: "2 scoops Taro into the shaker", "220 ml Whole milk to 65 °C", "270 ml Black tea hot". */
export function stepWords(step: Step): string {
  if (!step.amount) return step.short;
  const words = [amountFigure(step), isPoured(step) ? "ml" : step.amount.unit, step.short];
  if (step.celsius !== null) words.push(`to ${heatOf(step)}`);
  if (goesInHot(step)) words.push("hot");
  if (step.into) words.push(`into the ${step.into}`);
  return words.join(" ");
}

/** What a cell says to those who hear it. */
export function cellWords(cell: Cell, at: number): string {
  if (cell.state === "none") return `${cell.station.name}: nothing to do`;
  const what = cell.steps.map(stepWords).join(", ");
  if (cell.state === "done") return `${cell.station.name}: done, ${what}`;
  const timer = cellTimer(cell, at);
  if (timer) {
    const left =
      timer.reading.phase === "running" ? `${seconds(timer.reading.leftSeconds)} left` : timer.reading.words;
    return `${cell.station.name}: running, ${left}, ${what}`;
  }
  const act = cellAct(cell.steps, cell.states);
  return `${cell.station.name}: ${act.start === null ? "to do" : "to start"}, ${what}`;
}

/** Rows of one ticket together, in order. */
export function byTicket(rows: readonly Row[]): Row[][] {
  const groups: Row[][] = [];
  for (const row of rows) {
    const last = groups[groups.length - 1];
    if (last?.[0]?.ticket.id === row.ticket.id) last.push(row);
    else groups.push([row]);
  }
  return groups;
}
