import { describe, expect, it } from "vitest";
import {
  cellAct,
  GRACE_SECONDS,
  lateness,
  lengthWords,
  readTimer,
  runsAlone,
  waitWords,
} from "../src/floor/waits/timers";
import type { StepState } from "../src/wire.gen";
import { step } from "./make";

// Shaking by machine takes 30 to 60 s: common practice.
const SHAKE = { low_s: 30, high_s: 60, attended: false };

describe("a timer", () => {
  it.each([
    [0, "running", "30 s", "30 s", 1],
    [15, "running", "15 s", "15 s", 0.5],
    [29.2, "running", "1 s", "1 s", 0.8 / 30],
    [30, "ready", "ready", "ready", 0],
    [59.9, "ready", "ready", "ready", 0],
    [60, "over", "over", "+0 s", 0],
    [75, "over", "over 15 s", "+15 s", 0],
    [180, "over", "over 2:00", "+2:00", 0],
  ] as const)("after %d s is %s and says %s", (passed, phase, words, glance, left) => {
    const reading = readTimer(5000, SHAKE, 5000 + passed * 1000);
    expect([reading.phase, reading.words, reading.glance]).toEqual([phase, words, glance]);
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
  const FLOOR = { soon_s: 240, late_s: 360 };

  it("is fine, soon and late by the book's times", () => {
    const at = (seconds: number) => lateness(0, seconds * 1000, FLOOR);
    expect([at(0), at(239.9), at(240), at(359.9), at(360), at(3600)]).toEqual([
      "fine",
      "fine",
      "soon",
      "soon",
      "late",
      "late",
    ]);
  });

  it("is not called late before the book is known", () => {
    expect(lateness(0, 3_600_000, undefined)).toBe("fine");
    expect(waitWords(0, 3_600_000, undefined)).toEqual({ word: "", figure: "1:00:00" });
  });

  // Late at 6:00: at 4:10 that is 1:50 off, at 5:59.5 half a second, which is not nothing.
  it.each([
    [100, "", "1:40"],
    [250, "late in", "1:50"],
    [359.5, "late in", "0:01"],
    [360, "late", "6:00"],
    [754, "late", "12:34"],
  ])("that waited %d s says what is soon", (seconds, word, figure) => {
    expect(waitWords(0, seconds * 1000, FLOOR)).toEqual({ word, figure });
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
