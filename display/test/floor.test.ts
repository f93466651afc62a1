import { describe, expect, it } from "vitest";
import { bumps } from "../src/floor/bumps";
import { goesInHot, lengthOf, stepWords } from "../src/floor/cups/cells";
import { type Same, sameSorts, sameWords, sortOf } from "../src/floor/cups/same";
import { comesFrom, doneEverywhere, endsAt, whereNow } from "../src/floor/cups/where";
import { fromSnapshot, openRows, type Queue, type Row } from "../src/link/queue";
import { countWords, lately, tasksOf } from "../src/station/tasks";
import type { Amount, QueueDrink, Station, Step, StepState } from "../src/wire.gen";
import { build, drink, snapshot, step, ticket } from "./make";

const SCOOP: Station = { id: "scoop", name: "Scoop" };
const SHAKE: Station = { id: "shake", name: "Shake" };
const SEAL: Station = { id: "seal", name: "Seal" };
const COUNTER = [SCOOP, SHAKE, SEAL];
const WHOLE = build(
  "a",
  COUNTER.map(({ id }, index) => step(index + 1, { station: id })),
);
/** A drink that is never shaken. */
const SHORT = build("b", [step(1, { station: "scoop" }), step(2, { station: "seal" })]);

function cup(id: string, words: readonly StepState["state"][], given: Partial<QueueDrink> = {}): QueueDrink {
  const steps = words.map((state, index) => ({
    state,
    started_at: null,
    finished_at: state === "done" ? 1000 * (index + 1) : null,
  }));
  return drink(id, { steps, ...given });
}

/** A queue with a ticket for each drink given. */
function queueOf(...drinks: QueueDrink[]): Queue {
  const tickets = drinks.map((one, index) => ticket(index + 1, { drinks: [one] }));
  return fromSnapshot(snapshot(1, tickets, [WHOLE, SHORT]));
}
const rowsOf = (...drinks: QueueDrink[]): Row[] => openRows(queueOf(...drinks));
const first = (...drinks: QueueDrink[]): Row => rowsOf(...drinks)[0] as Row;

describe("a cup", () => {
  it.each([
    [["todo", "todo", "todo"], "scoop", "Scoop", "Scoop"],
    [["done", "todo", "todo"], "shake", undefined, "Shake"],
    [["done", "running", "todo"], "shake", undefined, "Shake"],
    [["todo", "done", "todo"], "scoop", "Scoop", "Scoop"],
    [["done", "done", "todo"], "seal", undefined, undefined],
  ] as const)("with %s is at %s", (states, at, toShake, toSeal) => {
    const row = first(cup("1.1", states));
    expect(whereNow(row, COUNTER)?.id).toBe(at);
    expect(comesFrom(row, SCOOP, COUNTER)).toBeUndefined();
    expect(comesFrom(row, SHAKE, COUNTER)?.name).toBe(toShake);
    expect(comesFrom(row, SEAL, COUNTER)?.name).toBe(toSeal);
  });

  it("passes a station that has nothing to do for it", () => {
    const row = first(cup("1.1", ["done", "todo"], { build: "b" }));
    expect(comesFrom(row, SEAL, COUNTER)).toBeUndefined();
    expect(endsAt(row)).toBe("seal");
  });

  it("is done everywhere with its last step, and not before", () => {
    expect(doneEverywhere(first(cup("1.1", ["done", "done", "running"])))).toBe(false);
    expect(doneEverywhere(first(cup("1.1", ["done", "done", "done"])))).toBe(true);
  });
});

describe("a station", () => {
  const ids = (...drinks: QueueDrink[]): string[] =>
    tasksOf(rowsOf(...drinks), SHAKE, COUNTER).map((task) => task.row.drink.id);

  it("has what is here first, each in the order of the queue", () => {
    const drinks = [
      cup("1.1", ["todo", "todo", "todo"]),
      cup("2.1", ["done", "todo", "todo"]),
      cup("3.1", ["todo", "todo", "todo"]),
      cup("4.1", ["done", "running", "todo"]),
      cup("5.1", ["done", "done", "todo"]),
      cup("6.1", ["done", "todo", "todo"], { state: "void" }),
    ];
    expect(ids(...drinks)).toEqual(["2.1", "4.1", "1.1", "3.1"]);
    expect(countWords(tasksOf(rowsOf(...drinks), SHAKE, COUNTER))).toBe("2 here, 2 on the way");
  });

  it("takes what runs there as here, though a cup before it was called not done again", () => {
    expect(ids(cup("1.1", ["todo", "todo", "todo"]), cup("2.1", ["todo", "running", "todo"]))).toEqual([
      "2.1",
      "1.1",
    ]);
  });

  it("bumps what is done everywhere, and only where the drink ends", () => {
    const done = rowsOf(cup("1.1", ["done", "done", "done"]));
    expect(tasksOf(done, SHAKE, COUNTER)).toEqual([]);
    expect(tasksOf(done, SEAL, COUNTER).map((task) => task.bump)).toEqual([true]);
  });

  it("tells what it did last: what went on, and what was bumped here", () => {
    const queue = queueOf(
      cup("1.1", ["done", "done", "todo"]),
      cup("2.1", ["done", "done", "done"], { state: "made", bumped_at: 5000 }),
    );
    const told = (station: Station) =>
      lately(openRows(queue), bumps(queue), station).map((one) =>
        one.bump ? `bump of ${one.bump.ticket.number}` : one.row.drink.id,
      );
    expect(told(SHAKE)).toEqual(["1.1"]);
    expect(told(SEAL)).toEqual(["bump of 2"]);
  });
});

describe("the same drink on several tickets", () => {
  const taro = (id: string, given: Partial<QueueDrink> = {}) => cup(id, ["todo", "todo", "todo"], given);
  const none: ReadonlyMap<string, Same> = new Map();

  it("is marked with the numbers of all, whatever step each is at", () => {
    const rows = rowsOf(taro("1.1"), cup("2.1", ["done", "todo", "todo"]), taro("3.1", { note: "no straw" }));
    const found = sameSorts(rows, none);
    expect([...found.values()]).toEqual([{ letter: "A", numbers: [1, 2] }]);
    expect(found.get(sortOf(rows[2] as Row))).toBeUndefined();
  });

  it("is no more the same once it is void, done or the only one", () => {
    const others = [cup("2.1", ["done", "done", "done"]), taro("3.1", { state: "void" })];
    expect(sameSorts(rowsOf(taro("1.1"), ...others), none).size).toBe(0);
    const twice = fromSnapshot(snapshot(1, [ticket(1, { drinks: [taro("1.1"), taro("1.2")] })], [WHOLE]));
    expect(sameSorts(openRows(twice), none).size).toBe(0);
  });

  it("keeps its letter as long as it is marked, and frees it after", () => {
    const mango = (id: string) => cup(id, ["todo", "todo"], { build: "b" });
    const both = rowsOf(taro("1.1"), taro("2.1"), mango("3.1"), mango("4.1"));
    const before = sameSorts(both, none);
    expect([...before.values()].map((one) => one.letter)).toEqual(["A", "B"]);
    const left = sameSorts(both.slice(2), before);
    expect([...left.values()].map((one) => one.letter)).toEqual(["B"]);
    const again = sameSorts(both, left);
    expect(both.map((row) => again.get(sortOf(row))?.letter)).toEqual(["A", "A", "B", "B"]);
  });

  it("names the others, of many the first three", () => {
    expect(sameWords({ letter: "A", numbers: [45, 46, 47] }, 45)).toBe("same as 46, 47");
    expect(sameWords({ letter: "A", numbers: [1, 2, 3, 4, 5, 6] }, 2)).toBe("same as 1, 3, 4 and 2 more");
  });
});

describe("a step", () => {
  const amount = (kind: string): Amount => ({
    tool: kind,
    kind,
    unit: "ml",
    count: 260,
    volume_ml: 260,
    mass_g: 260,
    wanted_ml: 260,
    error_pct: 0,
  });
  const pour = (given: Partial<Step>): Step =>
    step(1, {
      action: "pour",
      ingredient: "whole_milk",
      short: "Whole milk",
      amount: amount("jug"),
      ...given,
    });

  it("says that milk goes in hot where the build has it so, once", () => {
    expect(stepWords(pour({ caution: "Hot: can scald" }))).toBe("260 ml Whole milk hot");
    expect(stepWords(pour({}))).toBe("260 ml Whole milk");
    expect(goesInHot(pour({ caution: "Hot: can scald", short: "Hot water" }))).toBe(false);
    expect(goesInHot(pour({ caution: "Hot: can scald", action: "pull" }))).toBe(false);
    expect(goesInHot(step(1, { action: "stir", caution: "Hot: can scald" }))).toBe(false);
  });

  it("says how long hands stir, and not how long a lid takes", () => {
    const by = (low_s: number, high_s: number, action: string): Step =>
      step(1, { action, duration: { low_s, high_s, attended: true } });
    expect(lengthOf(by(15, 20, "stir"))).toBe("15–20 s");
    expect(lengthOf(by(8, 8, "lid"))).toBe("");
    expect(lengthOf(step(1))).toBe("");
  });
});
