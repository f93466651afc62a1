import { describe, expect, it } from "vitest";
import { cellAct, GRACE_SECONDS, lateness, lengthWords, readTimer, runsAlone } from "../src/timers";
import type { StepState } from "../src/wire.gen";
import { step } from "./make";

// Shaking by machine takes 30 to 60 s: common practice.
const SHAKE = { low_s: 30, high_s: 60, attended: false };

describe("a timer", () => {
  it.each([
    [0, "running", "30 s", 1],
    [15, "running", "15 s", 0.5],
    [29.2, "running", "1 s", 0.8 / 30],
    [30, "ready", "ready", 0],
    [59.9, "ready", "ready", 0],
    [60, "over", "over", 0],
    [75, "over", "over 15 s", 0],
  ] as const)("after %d s is %s and says %s", (passed, phase, words, left) => {
    const reading = readTimer(5000, SHAKE, 5000 + passed * 1000);
    expect([reading.phase, reading.words]).toEqual([phase, words]);
    expect(reading.left).toBeCloseTo(left);
  });

  it("without a range stays ready for a moment before it is over", () => {
    const exact = { low_s: 20, high_s: 20, attended: false };
    expect(readTimer(0, exact, 20_000).phase).toBe("ready");
    expect(readTimer(0, exact, (20 + GRACE_SECONDS) * 1000).phase).toBe("over");
  });

  it("started in the future (by a clock not yet known well) has all its time left", () => {
    expect(readTimer(9000, SHAKE, 5000)).toMatchObject({ phase: "running", leftSeconds: 30, left: 1 });
  });

  it("tells its length as a range", () => {
    expect(lengthWords(SHAKE)).toBe("30–60 s");
  });
});

describe("a ticket", () => {
  it("is fine, soon from five minutes, late from eight", () => {
    const at = (minutes: number) => lateness(0, minutes * 60_000);
    expect([at(0), at(4.99), at(5), at(7.99), at(8), at(60)]).toEqual([
      "fine",
      "fine",
      "soon",
      "soon",
      "late",
      "late",
    ]);
  });
});

describe("touching a cell", () => {
  const scoop = step(1);
  const shake = step(2, { duration: SHAKE });
  const pour = step(3);
  const steps = [scoop, shake, pour];
  const states = (...each: StepState["state"][]): StepState[] =>
    each.map((state) => ({ state, started_at: state === "running" ? 1 : null, finished_at: null }));

  it.each([
    [states("todo", "todo", "todo"), [1], 2],
    [states("done", "todo", "todo"), [], 2],
    [states("done", "running", "todo"), [2, 3], null],
    [states("done", "done", "todo"), [3], null],
    [states("done", "done", "done"), [], null],
  ])("starts the next timer or finishes what is open (%#)", (each, finish, start) => {
    expect(cellAct(steps, each)).toEqual({ finish, start });
  });

  it("does not make a timer of work that needs hands all the while", () => {
    const stir = step(1, { duration: { low_s: 20, high_s: 20, attended: true } });
    expect(runsAlone(stir)).toBe(false);
    expect(cellAct([stir], states("todo"))).toEqual({ finish: [1], start: null });
  });
});
