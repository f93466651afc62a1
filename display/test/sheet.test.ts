import { describe, expect, it } from "vitest";
import { move, settle } from "../src/bar/grid";
import { roomOf } from "../src/bar/widths";
import { BOUNCE_MS, Bounce } from "../src/floor/acts";
import {
  aheadOf,
  amountFigure,
  byTicket,
  cellsOf,
  cellWords,
  doneLast,
  heatOf,
  measuredTwice,
  stepWords,
} from "../src/floor/cups/cells";
import { cutRows } from "../src/floor/more";
import { dueOf, newsOf, newsWords } from "../src/floor/waits/alarms";
import { fromSnapshot, openRows, type Row } from "../src/link/queue";
import type { Amount, StepState } from "../src/wire.gen";
import { build, drink, menu, snapshot, step, ticket } from "./make";

const amount = (kind: string, count: number, unit: string): Amount => ({
  tool: kind,
  kind,
  unit,
  count,
  volume_ml: count,
  mass_g: count,
  wanted_ml: count,
  error_pct: 0,
});
const TARO = step(1, { short: "Taro", amount: amount("scoop", 1.5, "scoops") });
const TEA = step(2, { short: "Black tea", amount: amount("jug", 160, "ml") });
const SHAKE = step(3, {
  short: "Shake",
  station: "shake",
  duration: { low_s: 30, high_s: 60, attended: false },
});
const stations = menu().stations;

function rowWith(states: StepState["state"][], startedAt = 0): Row {
  const steps = states.map((state) => ({ state, started_at: startedAt, finished_at: null }));
  const held = fromSnapshot(
    snapshot(1, [ticket(1, { drinks: [drink("1.1", { steps })] })], [build("a", [TARO, TEA, SHAKE])]),
  );
  return openRows(held)[0] as Row;
}

describe("a row", () => {
  it("falls into a cell a station, each with its own state", () => {
    const cells = cellsOf(rowWith(["done", "done", "running"]), [...stations, { id: "seal", name: "Seal" }]);
    expect(cells.map((cell) => [cell.station.id, cell.state, cell.steps.length])).toEqual([
      ["scoop", "done", 2],
      ["shake", "running", 1],
      ["seal", "none", 0],
    ]);
  });

  it("tells what was done last at a station, so that it can be done over", () => {
    const doneAt = (id: string, at: number | null) =>
      drink(id, { steps: [{ state: at === null ? "todo" : "done", started_at: null, finished_at: at }] });
    const held = fromSnapshot(
      snapshot(1, [ticket(1, { drinks: [doneAt("1.1", 20), doneAt("1.2", null), doneAt("1.3", 30)] })]),
    );
    const tasks = openRows(held).flatMap((row) => cellsOf(row, stations).map((cell) => ({ row, cell })));
    expect(doneLast(tasks).map((task) => task.row.drink.id)).toEqual(["1.3", "1.1"]);
  });

  it("says its amounts as figures and in words", () => {
    expect([amountFigure(TARO), amountFigure(TEA), amountFigure(SHAKE)]).toEqual(["1½", "160", ""]);
    expect([TARO, TEA, SHAKE].map(stepWords)).toEqual(["1½ scoops Taro", "160 ml Black tea", "Shake"]);
  });

  it("names the vessel where the first thing goes into it, and what milk is steamed to", () => {
    const first = { ...TARO, into: "shaker" };
    const steamed = step(2, {
      short: "Whole milk",
      action: "steam",
      amount: amount("jug", 220, "ml"),
      celsius: 65,
      caution: "Hot: can scald",
    });
    expect(stepWords(first)).toBe("1½ scoops Taro into the shaker");
    expect(stepWords(steamed)).toBe("220 ml Whole milk to 65 °C");
    expect([heatOf(steamed), heatOf(first)]).toEqual(["65 °C", ""]);
  });

  it("tells those who hear it what each cell is about", () => {
    const heard = (states: StepState["state"][]) =>
      cellsOf(rowWith(states, 1000), stations).map((cell) => cellWords(cell, 11_000));
    expect(heard(["todo", "todo", "todo"])).toEqual([
      "Scoop: to do, 1½ scoops Taro, 160 ml Black tea",
      "Shake: to start, Shake",
    ]);
    expect(heard(["done", "done", "running"])).toEqual([
      "Scoop: done, 1½ scoops Taro, 160 ml Black tea",
      "Shake: running, 20 s left, Shake",
    ]);
  });

  it("counts at the stations that it still needs, a void one at none", () => {
    const rows = [rowWith(["done", "done", "todo"]), rowWith(["todo", "done", "todo"])];
    expect(aheadOf(rows, stations).map((one) => one.drinks)).toEqual([1, 2]);
    const struck = rows.map((row) => ({ ...row, drink: { ...row.drink, state: "void" as const } }));
    expect(aheadOf(struck, stations).map((one) => one.drinks)).toEqual([0, 0]);
  });

  it("stays with the rows of its ticket", () => {
    const held = fromSnapshot(snapshot(1, [ticket(1, { drinks: [drink("1.1"), drink("1.2")] }), ticket(2)]));
    expect(byTicket(openRows(held)).map((group) => group.map((row) => row.drink.id))).toEqual([
      ["1.1", "1.2"],
      ["2.1"],
    ]);
  });

  it("names the tool where two measure the same ingredient, and only there", () => {
    const scoops = step(1, { ingredient: "taro", amount: amount("scoop", 2, "scoops") });
    const quarter = step(2, {
      ingredient: "taro",
      amount: { ...amount("scoop", 1, "quarter scoop"), tool: "quarter" },
    });
    expect(measuredTwice([scoops, quarter], scoops)).toBe(true);
    expect(measuredTwice([scoops, TEA], scoops)).toBe(false);
  });

  it("asks for room for its longest word, and for more when it has more to say", () => {
    const few = roomOf([TARO]);
    const many = roomOf([TARO, TEA, { ...TARO, short: "Condensed" }, TEA]);
    expect(many.least).toBeGreaterThanOrEqual("Condensed".length);
    expect(many.wanted).toBeGreaterThan(few.wanted);
  });
});

describe("moving about", () => {
  const drinks = ["1.1", "1.2", "2.1"];
  const at = (drink: string, column: number) => ({ drink, column });

  it.each([
    ["ArrowDown", at("1.2", 2)],
    ["ArrowUp", at("1.1", 2)],
    ["ArrowRight", at("1.1", 3)],
    ["ArrowLeft", at("1.1", 1)],
    ["Home", at("1.1", 0)],
    ["End", at("1.1", 7)],
    ["PageDown", at("2.1", 2)],
    ["3", at("2.1", 2)],
    ["9", at("2.1", 2)],
    ["x", null],
    ["0", null],
  ])("%s leads on", (key, to) => expect(move(at("1.1", 2), key, drinks, 8)).toEqual(to));

  it("begins at the first drink, and goes nowhere on an empty sheet", () => {
    expect(move(null, "ArrowDown", drinks, 8)).toEqual(at("1.2", 0));
    expect(move(at("1.1", 0), "ArrowDown", [], 8)).toBeNull();
  });

  it("goes to the row that came into the place of a bumped one", () => {
    expect(settle(at("1.2", 3), drinks, ["1.1", "2.1"])).toEqual(at("2.1", 3));
    expect(settle(at("2.1", 3), drinks, ["1.1", "1.2"])).toEqual(at("1.2", 3));
    expect(settle(at("1.1", 3), drinks, [])).toBeNull();
    expect(settle(at("1.1", 3), drinks, drinks)).toEqual(at("1.1", 3));
  });
});

describe("a second touch", () => {
  it("on the same thing is left out for a moment, elsewhere it counts", () => {
    let time = 0;
    const bounce = new Bounce(() => time);
    expect(bounce.passes("a", false)).toBe(true);
    time = BOUNCE_MS - 1;
    expect(bounce.passes("a", false)).toBe(false);
    expect(bounce.passes("b", false)).toBe(true);
    time = BOUNCE_MS;
    expect(bounce.passes("a", false)).toBe(true);
  });

  it("right after rows have moved is left out wherever it lands", () => {
    let time = 0;
    const bounce = new Bounce(() => time);
    expect(bounce.passes("bump 1", true)).toBe(true);
    time = BOUNCE_MS - 1;
    expect(bounce.passes("bump 2", true)).toBe(false);
    time = BOUNCE_MS;
    expect(bounce.passes("bump 2", true)).toBe(true);
  });
});

describe("rows that do not fit", () => {
  const rows = [0, 1, 2, 3].map((index) => ({
    drink: `d${index}`,
    top: 50 + index * 100,
    bottom: 150 + index * 100,
  }));

  it("are none when all fit", () => {
    expect(cutRows(rows, 50, 450, 40).drinks).toEqual([]);
  });

  it("are covered from the first that is cut, leaving room to say so", () => {
    expect(cutRows(rows, 50, 400, 40)).toEqual({ drinks: ["d3"], from: 300, lines: 0 });
    expect(cutRows(rows, 50, 360, 40)).toEqual({ drinks: ["d2", "d3"], from: 200, lines: 1 });
  });

  it("are never the first in view, nor those scrolled past", () => {
    expect(cutRows(rows, 50, 100, 40).drinks).toEqual(["d1", "d2", "d3"]);
    expect(cutRows(rows, 150, 300, 40).drinks).toEqual(["d2", "d3"]);
  });
});

describe("what is due", () => {
  it("are timers past their low end and tickets that are late", () => {
    const steps: StepState[] = [
      { state: "done", started_at: null, finished_at: null },
      { state: "done", started_at: null, finished_at: null },
      { state: "running", started_at: 10_000, finished_at: null },
    ];
    const held = fromSnapshot(
      snapshot(
        1,
        [ticket(1, { rung_at: 0, drinks: [drink("1.1", { steps })] })],
        [build("a", [TARO, TEA, SHAKE])],
      ),
    );
    const at = (time: number) => {
      const due = dueOf(held, time, menu().floor);
      return [[...due.timers], [...due.late]];
    };
    expect(at(39_000)).toEqual([[], []]);
    expect(at(40_000)).toEqual([["1.1/3"], []]);
    expect(at(480_000)).toEqual([["1.1/3"], ["1"]]);
  });

  it("the news are the tickets that were not there before", () => {
    const before = fromSnapshot(snapshot(1, [ticket(1)]));
    const after = fromSnapshot(snapshot(2, [ticket(1), ticket(2, { drinks: [drink("2.1"), drink("2.2")] })]));
    expect(newsWords(newsOf(before, after))).toBe("New: number 2, 2 drinks");
    expect(newsWords(newsOf(after, before))).toBe("");
    const back = fromSnapshot(snapshot(3, [ticket(3, { state: "ready" })]));
    expect(newsWords(newsOf(fromSnapshot(snapshot(2, [])), back))).toBe("Number 3 is back at the hand-off");
  });
});
