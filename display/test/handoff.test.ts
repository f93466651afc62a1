import { describe, expect, it } from "vitest";
import { columns, makingColumns } from "../src/handoff/page";

describe("the board", () => {
  it("has no more than five numbers being made under each other", () => {
    for (let count = 1; count <= 60; count += 1) {
      expect(Math.ceil(count / makingColumns(count))).toBeLessThanOrEqual(5);
    }
    expect([1, 15, 16, 24].map(makingColumns)).toEqual([3, 3, 4, 5]);
  });

  it("gives few ready numbers much room, and many each their own", () => {
    expect([0, 1, 4, 5, 9, 30].map((count) => columns(count, 3))).toEqual([2, 2, 2, 3, 3, 3]);
  });
});
