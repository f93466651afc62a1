import { describe, expect, it } from "vitest";
import {
  acceptAll,
  amountsOf,
  followsAt,
  sameWhenHot,
  setCell,
  usualAmount,
} from "../src/owner/book/amounts";
import { type Edits, NO_EDITS } from "../src/owner/book/edits";
import { moveItem } from "../src/owner/book/places";
import { toSend } from "../src/owner/book/sending";
import { type Desk, type Sheet, sheetsOf } from "../src/owner/book/sheets";
import type { Entry, ProposedAmount, Workbook } from "../src/wire.gen";
import { BOOK, entry, field, file, SHAPES, shape, table } from "./makebench";

const FILE = "drinks/oolong.toml";
const cells = (key: string) =>
  shape(key, {
    file: "drinks/",
    path: ["steps", "*", key],
    more: field("", { kind: "quantity", needed: false }),
    keys: "sizes",
    optional: true,
  });

/** A drink for small and large cups, written for the small one: powder, tea by size, and work. */
function bookWith(top: Entry[] = [entry("hot", true)], tea: Entry[] = []): Workbook {
  return {
    ...BOOK,
    shapes: [...SHAPES, cells("amount"), cells("hot")],
    files: [
      file(FILE, [
        table([], "drink", [entry("name", "Oolong"), entry("size", "small"), ...top]),
        table(["prices"], "prices", [entry("small", "3.30"), entry("large", "4.30")]),
        table(["steps", 0], "step", [
          entry("do", "scoop"),
          entry("what", "creamer"),
          entry("amount", "2 scoops"),
        ]),
        table(["steps", 0, "amount"], "amount", [], false),
        table(["steps", 0, "hot"], "hot", [], false),
        table(["steps", 1], "step", [entry("do", "pour"), entry("what", "tea"), ...tea]),
        table(["steps", 1, "amount"], "amount", [entry("small", "90 ml"), entry("large", "170 ml")]),
        table(["steps", 1, "hot"], "hot", [], false),
        table(["steps", 2], "step", [entry("do", "stir")]),
      ]),
    ],
  };
}

const at = (edits: Edits = NO_EDITS, book = bookWith()): Desk => ({ book, edits });
const steps = (desk: Desk): Sheet[] => {
  const [first] = desk.book.files;
  return first ? sheetsOf(desk, first).filter((sheet) => sheet.list) : [];
};
const step = (desk: Desk, place: number): Sheet => steps(desk)[place] as Sheet;
const grid = (desk: Desk, place: number) =>
  amountsOf(desk, step(desk, place))?.rows.map((row) => [row.name, ...row.cells.map((one) => one.held)]);
const typed = (desk: Desk, place: number, size: string, key: string, text: string): Edits => {
  const one = amountsOf(desk, step(desk, place))
    ?.rows.flatMap((row) => row.cells)
    .find((each) => each.size === size && each.key === key);
  return one ? setCell(desk, step(desk, place), one, text) : desk.edits;
};

describe("the amounts of a step", () => {
  it("are sizes down, iced and hot across, whichever way they are written", () => {
    expect(amountsOf(at(), step(at(), 0))?.columns.map((one) => one.name)).toEqual(["Iced", "Hot"]);
    expect(grid(at(), 0)).toEqual([
      ["SMALL", "2 scoops", null],
      ["LARGE", null, null],
    ]);
    expect(grid(at(), 1)).toEqual([
      ["SMALL", "90 ml", null],
      ["LARGE", "170 ml", null],
    ]);
    expect(amountsOf(at(), step(at(), 2))).toBeUndefined();
    expect(usualAmount(at(), step(at(), 0))).toBe("2 scoops");
    expect(usualAmount(at(), step(at(), 1))).toBe("90 ml");
  });

  it("have no hot column where nothing hot is sold, or the step is not made hot", () => {
    const columns = (book: Workbook, place = 1) =>
      amountsOf(at(NO_EDITS, book), step(at(NO_EDITS, book), place))?.columns.map((one) => one.name);
    expect(columns(bookWith([]))).toEqual(["Iced"]);
    expect(columns(bookWith([entry("hot", true), entry("ices", [])]))).toEqual(["Hot"]);
  });

  it("are typed into a cell and taken out again, but never the reference", () => {
    const one = typed(at(), 0, "large", "amount", "3½ scoops");
    expect(toSend(one)).toEqual([{ file: FILE, path: ["steps", 0, "amount", "large"], value: "3½ scoops" }]);
    expect(typed(at(one), 0, "large", "amount", "")).toEqual(NO_EDITS);
    const out = typed(at(), 1, "large", "amount", "");
    expect(toSend(out)).toEqual([{ file: FILE, path: ["steps", 1, "amount", "large"], value: null }]);
    const empty = typed(at(), 0, "small", "amount", "");
    expect(toSend(empty)).toEqual([{ file: FILE, path: ["steps", 0, "amount", "small"], value: "" }]);
  });

  it("begin hot as the iced ones, so that no other size changes by it", () => {
    const one = typed(at(), 1, "large", "hot", "200 ml");
    expect(grid(at(one), 1)).toEqual([
      ["SMALL", "90 ml", "90 ml"],
      ["LARGE", "170 ml", "200 ml"],
    ]);
    // The second is typed alone.
    expect(grid(at(typed(at(one), 1, "small", "hot", "")), 1)?.[0]).toEqual(["SMALL", "90 ml", null]);
    expect(sameWhenHot(at(one), step(at(one), 1))).toEqual(NO_EDITS);
  });

  it("follow in the words of the last trial, by the place that the step has by now", () => {
    const known = [{ step: 0, size: "large", hot: false, text: "3.58 scoops", written: false }];
    const one = amountsOf(at(), step(at(), 0))?.rows[1]?.cells[0];
    if (!one) throw new Error("no cell");
    expect(followsAt(known, 0, one)).toBe("3.58 scoops");
    expect(followsAt(known, 1, one)).toBe("");
  });

  it("are written as proposed, where the step stands by now", () => {
    const [list] = steps(at()).flatMap((sheet) => sheet.list ?? []);
    if (!list) throw new Error("no list");
    const moved = moveItem(NO_EDITS, { file: FILE, path: ["steps"], count: list.count }, 0, 1);
    const row = { drink: "oolong", step: 1, size: "large", hot: false } as ProposedAmount;
    const gone = { ...row, drink: "nobody" };
    const edits = acceptAll(at(moved), [
      { row, text: "4 scoops" },
      { row: gone, text: "1 scoop" },
    ]);
    expect(edits.changes).toEqual([{ file: FILE, path: ["steps", 0, "amount", "large"], value: "4 scoops" }]);
    expect(toSend(edits).at(-1)?.path).toEqual(["steps", 1, "amount", "large"]);
  });
});
