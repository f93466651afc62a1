import { describe, expect, it } from "vitest";
import { refusedWords } from "../src/link/bookfaults";
import type { BookFault } from "../src/wire.gen";

const fault = (file: string, line: number): BookFault => ({
  file,
  line,
  key: "steps",
  found: "",
  accepted: "",
  message: "",
});

describe("a refused book", () => {
  it("is told in one line, with where to look first", () => {
    expect(refusedWords([])).toBe("");
    expect(refusedWords([fault("shop.toml", 3)])).toBe(
      "The new book was refused (a fault in shop.toml, line 3). The last good one is in force.",
    );
    expect(refusedWords([fault("pantry.toml", 9), fault("shop.toml", 3)])).toContain(
      "(2 faults, first pantry.toml, line 9)",
    );
  });
});
