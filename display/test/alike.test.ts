import { describe, expect, it } from "vitest";
import { bumps, bumpsByTicket, bumpWords } from "../src/floor/bumps";
import { abreast, apart, cupsOf, folded, kindOf, titleOf, turnApart } from "../src/floor/cups/alike";
import { aheadOf } from "../src/floor/cups/cells";
import { fromSnapshot, openRows, type Row } from "../src/link/queue";
import type { QueueDrink, StepState } from "../src/wire.gen";
import { build, drink, menu, snapshot, step, ticket } from "./make";

const NONE: ReadonlySet<string> = new Set();
const stepAt = (state: StepState["state"], at: number | null = null): StepState => ({
  state,
  started_at: at,
  finished_at: null,
});
const rowsOf = (...drinks: QueueDrink[]): Row[] =>
  openRows(fromSnapshot(snapshot(1, [ticket(1, { drinks })], [build("a"), build("b")])));
const cups = (found: readonly Row[]): string[][] => found.map((row) => row.cups.map((cup) => cup.id));

describe("alike cups", () => {
  it("of one ticket are one row where the first stands, whatever stands between", () => {
    const found = folded(
      rowsOf(drink("1.1"), drink("1.2", { build: "b" }), drink("1.3"), drink("1.4")),
      NONE,
    );
    expect(cups(found)).toEqual([["1.1", "1.3", "1.4"], ["1.2"]]);
    expect(found.map(titleOf)).toEqual(["3 × Drink a", "Drink b"]);
    expect(cupsOf(found)).toBe(4);
  });

  it("are not alike with another note, nor on another ticket", () => {
    expect(cups(folded(rowsOf(drink("1.1"), drink("1.2", { note: "to go" })), NONE))).toEqual([
      ["1.1"],
      ["1.2"],
    ]);
    const two = openRows(fromSnapshot(snapshot(1, [ticket(1), ticket(2)])));
    expect(cups(folded(two, NONE))).toEqual([["1.1"], ["2.1"]]);
  });

  it("part once one is ahead, and are one row again once the others have caught up", () => {
    const ahead = drink("1.1", { steps: [stepAt("done")] });
    expect(cups(folded(rowsOf(ahead, drink("1.2"), drink("1.3")), NONE))).toEqual([["1.1"], ["1.2", "1.3"]]);
    const caught = drink("1.2", { steps: [stepAt("done")] });
    expect(cups(folded(rowsOf(ahead, caught), NONE))).toEqual([["1.1", "1.2"]]);
  });

  it("whose timers were not begun together are not read as one timer", () => {
    const at = (id: string, started: number) => drink(id, { steps: [stepAt("running", started)] });
    expect(abreast(at("1.1", 10_000), at("1.2", 11_500))).toBe(true);
    expect(abreast(at("1.1", 10_000), at("1.2", 15_000))).toBe(false);
  });

  it("that are void stay apart from those to be made, and are not counted", () => {
    const found = folded(rowsOf(drink("1.1"), drink("1.2", { state: "void" }), drink("1.3")), NONE);
    expect(cups(found)).toEqual([["1.1", "1.3"], ["1.2"]]);
    expect(cupsOf(found)).toBe(2);
    expect(aheadOf(found, menu().stations).map((one) => one.drinks)).toEqual([2, 0]);
  });

  it("can be worked one by one, and together again", () => {
    const rows = rowsOf(drink("1.1"), drink("1.2"));
    turnApart(rows[1] as Row);
    expect([...apart.value]).toEqual([kindOf(rows[0] as Row)]);
    expect(cups(folded(rows, apart.value))).toEqual([["1.1"], ["1.2"]]);
    turnApart(rows[0] as Row);
    expect(cups(folded(rows, apart.value))).toEqual([["1.1", "1.2"]]);
  });
});

describe("what was bumped", () => {
  const made = (id: string, at: number, of = "a") =>
    drink(id, { state: "made", bumped_at: at, build: of, steps: [stepAt("done")] });
  const queue = fromSnapshot(
    snapshot(
      9,
      [
        ticket(1, { drinks: [made("1.1", 50), made("1.2", 20), made("1.3", 20)] }),
        ticket(2, { drinks: [made("2.1", 40), made("2.2", 40, "b"), drink("2.3")] }),
        ticket(3, { drinks: [drink("3.1")] }),
      ],
      [build("a", [step(1)]), build("b")],
    ),
  );

  it("is told touch by touch, newest first", () => {
    const found = bumps(queue);
    expect(found.map((bump) => bump.rows.map((row) => row.drink.id))).toEqual([
      ["1.1"],
      ["2.1", "2.2"],
      ["1.2", "1.3"],
    ]);
    expect(found.map(bumpWords)).toEqual(["Drink a", "2 drinks", "2 × Drink a"]);
    const both = ticket(4, {
      drinks: [made("4.1", 7), made("4.2", 7, "b"), drink("4.3", { state: "void" })],
    });
    const whole = bumps(fromSnapshot(snapshot(9, [both], [build("a"), build("b")])));
    expect(whole.map(bumpWords)).toEqual(["whole ticket, 2 drinks"]);
  });

  it("is told ticket by ticket, so that a whole one can be recalled", () => {
    const found = bumpsByTicket(bumps(queue));
    expect(found.map((bump) => [bump.ticket.id, bump.rows.length])).toEqual([
      ["1", 3],
      ["2", 2],
    ]);
  });
});
