import { describe, expect, it } from "vitest";
import { bagOf } from "../src/handoff/bag";
import { makingColumns } from "../src/handoff/making";
import { gridFor, largestGrid, onBoard, pagesOf } from "../src/handoff/pages";
import { build, drink, ticket } from "./make";

describe("the board", () => {
  it("has no more than five numbers being made under each other", () => {
    for (let count = 1; count <= 60; count += 1) {
      expect(Math.ceil(count / makingColumns(count))).toBeLessThanOrEqual(5);
    }
    expect([1, 15, 16, 24].map(makingColumns)).toEqual([3, 3, 4, 5]);
  });

  it("gives few numbers much room, and none less than can be read", () => {
    const largest = { columns: 4, rows: 5 };
    const grids = [0, 1, 4, 5, 9, 16, 20, 31].map((count) => gridFor(count, largest));
    expect(grids.map(({ columns, rows }) => `${columns}×${rows}`)).toEqual([
      "2×2",
      "2×2",
      "2×2",
      "3×2",
      "3×3",
      "4×4",
      "4×5",
      "4×5",
    ]);
  });

  it("always has room for as many as there are, up to its largest", () => {
    for (let columns = 1; columns <= 5; columns += 1) {
      for (let rows = 1; rows <= 8; rows += 1) {
        for (let count = 0; count <= columns * rows; count += 1) {
          const grid = gridFor(count, { columns, rows });
          expect(grid.columns * grid.rows).toBeGreaterThanOrEqual(count);
          expect(grid.columns <= columns && grid.rows <= rows).toBe(true);
        }
      }
    }
  });

  it("reckons the largest grid from the type, one number at least", () => {
    // 1100 / (40 × 4.6) = 5.98 across; 900 / (40 × 5.2) = 4.33 down.
    expect(largestGrid(1100, 900, 40)).toEqual({ columns: 5, rows: 4 });
    expect(largestGrid(100, 50, 40)).toEqual({ columns: 1, rows: 1 });
  });

  it("shows who is newly ready first, and lets a number go after its time", () => {
    const at = (id: number, readyAt: number) => ticket(id, { state: "ready", ready_at: readyAt });
    const tickets = [at(1, 100_000), at(2, 400_000), at(3, 300_000), ticket(4, { state: "making" })];
    const shown = (now: number, keeps?: number) => onBoard(tickets, now, keeps).map((one) => one.number);
    expect(shown(699_999, 600)).toEqual([2, 3, 1]);
    expect(shown(700_000, 600)).toEqual([2, 3]);
    expect(shown(9_000_000)).toEqual([2, 3, 1]);
  });

  it("turns through pages that together hold every number once", () => {
    expect(pagesOf([1, 2, 3, 4, 5], 2)).toEqual([[1, 2], [3, 4], [5]]);
    expect(pagesOf([1, 2], 2)).toEqual([[1, 2]]);
    expect(pagesOf([], 2)).toEqual([[]]);
  });
});

describe("a bag", () => {
  it("is told in words: alike cups together, what bends them, their note, whether made again; void ones left out", () => {
    const builds = { a: { ...build("a"), words: ["half sugar"] }, b: build("b") };
    const drinks = [
      drink("1.1"),
      drink("1.2", { build: "b" }),
      drink("1.3"),
      drink("1.4", { note: "no straw" }),
      drink("1.5", { build: "b", state: "void" }),
      drink("1.6", { remade_at: 1_500_000 }),
    ];
    expect(bagOf(ticket(1, { drinks }), builds)).toEqual([
      { count: 2, title: "Drink a", words: ["half sugar"], note: "", altered: false },
      { count: 1, title: "Drink b", words: [], note: "", altered: false },
      { count: 1, title: "Drink a", words: ["half sugar"], note: "no straw", altered: false },
      { count: 1, title: "Drink a", words: ["half sugar"], note: "", altered: true },
    ]);
  });
});
