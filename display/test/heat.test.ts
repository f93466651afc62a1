import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import {
  cellClass,
  cellFigure,
  cellValue,
  cellWords,
  columnGroups,
  legend,
  STEPS,
  shade,
  VIEWS,
} from "../src/owner/proof/heat";
import { firstCell, nextCell } from "../src/owner/proof/heatmap";
import { contrast } from "./wcag";

describe("the heat scale", () => {
  it("never falls as the error grows, and reaches each step", () => {
    const seen = Array.from({ length: 400 }, (_, index) => shade(index / 5, 10));
    expect(seen).toEqual([...seen].sort((a, b) => a - b));
    expect(new Set(seen).size).toBe(STEPS);
  });

  it("changes its text where the tolerance is passed", () => {
    expect(shade(10, 10)).toBe(2);
    expect(shade(10.01, 10)).toBe(3);
    expect(legend(10)).toHaveLength(STEPS);
    expect(legend(10)[2]).toBe("to 10 %, the tolerance");
  });

  it("keeps each figure legible on its step (WCAG 1.4.3, 4.5:1), lighter to darker", () => {
    const css = readFileSync(new URL("../src/styles/owner/proof.css", import.meta.url), "utf8");
    const hues = Array.from(
      { length: STEPS },
      (_, step) => css.match(`--heat-${step}: (#[0-9a-f]{6})`)?.[1] ?? "",
    );
    hues.forEach((hue, step) => {
      expect(contrast(hue, step < 4 ? "#14202b" : "#ffffff")).toBeGreaterThanOrEqual(4.5);
    });
    const onWhite = hues.map((hue) => contrast(hue, "#ffffff"));
    expect(onWhite).toEqual([...onWhite].sort((a, b) => a - b));
  });

  it("marks by form, not by hue alone, what is past the tolerance and what cannot be made", () => {
    const cell = {
      modifier: "ice",
      value: "none",
      name: "no ice",
      built: 1,
      refused: 0,
      mean_pct: 0,
      worst_pct: 0,
      fussy: 0,
      seconds: 0,
    };
    expect(cellClass(cell, 10, 10)).toBe("heat-2");
    expect(cellClass(cell, 10.1, 10)).toBe("heat-3 heat-past");
    expect(cellClass({ ...cell, built: 0 }, 0, 10)).toBe("heat-refused");
  });

  it("shows by hand the share that is fussy and the seconds, neither of which is past a tolerance", () => {
    const cell = {
      modifier: "ice",
      value: "none",
      name: "no ice",
      built: 8,
      refused: 2,
      mean_pct: 1,
      worst_pct: 3,
      fussy: 2,
      seconds: 41.5,
    };
    // Two of eight built are a quarter; what is refused is not made, so not fussy either.
    expect(VIEWS.map(([view]) => cellValue(cell, view))).toEqual([3, 1, 25, 41.5]);
    expect(cellValue({ ...cell, built: 0, fussy: 0 }, "fussy")).toBe(0);
    expect(cellClass(cell, 25, 10, "fussy")).toBe("heat-4");
    expect(cellClass(cell, 41.5, 10, "seconds")).toBe("heat-3");
    for (const [view] of VIEWS) expect(legend(10, view)).toHaveLength(STEPS);
    expect(legend(10, "seconds")[1]).toBe("to 20 s");
    expect(legend(5, "fussy")).not.toContain("to 5 %, the tolerance");
  });

  it("writes figures that fit a cell", () => {
    expect([0, 0.04, 3.24, 9.94, 9.96, 123.4].map(cellFigure)).toEqual(["0", "0", "3.2", "9.9", "10", "123"]);
  });

  it("groups columns by modifier", () => {
    const column = (modifier: string, value: string) => ({ modifier, value, name: value });
    const groups = columnGroups([column("size", "s"), column("size", "l"), column("ice", "none")]);
    expect(groups.map((group) => [group.modifier, group.columns.length])).toEqual([
      ["size", 2],
      ["ice", 1],
    ]);
  });

  it("says a cell in words, also one where nothing can be made", () => {
    const cell = {
      modifier: "ice",
      value: "none",
      name: "no ice",
      built: 0,
      refused: 4,
      mean_pct: 0,
      worst_pct: 0,
      fussy: 0,
      seconds: 0,
    };
    expect(cellWords("Cocoa", cell)).toBe("Cocoa, no ice: none can be made, 4 refused.");
    expect(cellWords("Cocoa", { ...cell, built: 2, mean_pct: 1, worst_pct: 3 })).toContain("3.0 % at worst");
    expect(cellWords("Cocoa", { ...cell, built: 2, fussy: 1, seconds: 31.26 })).toContain(
      "by hand 1 fussy, 31.3 s on average",
    );
  });
});

describe("going from cell to cell", () => {
  const filled = (row: number, column: number): boolean => !(row === 0 && column === 1);
  it("leaps over empty cells and stops at the edge", () => {
    expect(nextCell(filled, { row: 0, column: 0 }, [0, 1], 2, 3)).toEqual({ row: 0, column: 2 });
    expect(nextCell(filled, { row: 1, column: 1 }, [-1, 0], 2, 3)).toEqual({ row: 1, column: 1 });
  });

  it("begins at the first cell that is there", () => {
    expect(firstCell(filled, 2, 3)).toEqual({ row: 0, column: 0 });
    expect(firstCell((row, column) => row === 1 && column === 2, 2, 3)).toEqual({ row: 1, column: 2 });
    expect(firstCell(() => false, 2, 3)).toEqual({ row: 0, column: 0 });
  });
});
