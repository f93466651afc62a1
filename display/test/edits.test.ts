import { describe, expect, it } from "vitest";
import {
  countIn,
  countOf,
  dropTable,
  heldAt,
  isRemoved,
  NO_EDITS,
  putTable,
  setKey,
  setText,
  takeOver,
  toggleTable,
  toSend,
} from "../src/owner/edits";

const FILE = "drinks/oolong.toml";

describe("the owner's edits", () => {
  it("hold the last value of a key, and none when it is set back", () => {
    const once = setKey(NO_EDITS, "pantry.toml", ["creamer", "density"], "0.5 g/ml", "0.4 g/ml");
    const twice = setKey(once, "pantry.toml", ["creamer", "density"], "0.6 g/ml", "0.4 g/ml");
    expect(heldAt(twice, "pantry.toml", ["creamer", "density"], "0.4 g/ml")).toBe("0.6 g/ml");
    expect(countOf(twice)).toBe(1);
    expect(setKey(twice, "pantry.toml", ["creamer", "density"], "0.4 g/ml", "0.4 g/ml")).toEqual(NO_EDITS);
  });

  it("tell a list set back to what is written", () => {
    const edited = setKey(NO_EDITS, "pantry.toml", ["creamer", "allergens"], [], ["milk"]);
    expect(countOf(setKey(edited, "pantry.toml", ["creamer", "allergens"], ["milk"], ["milk"]))).toBe(0);
  });

  it("take the changes inside a table out with it", () => {
    const edited = setKey(NO_EDITS, FILE, ["steps", 2, "amount"], "3 scoops", "2 scoops");
    const without = toggleTable(edited, FILE, ["steps", 2]);
    expect(isRemoved(without, FILE, ["steps", 2])).toBe(true);
    expect(toSend(without)).toEqual([{ file: FILE, path: ["steps", 2], value: null }]);
    expect(toggleTable(without, FILE, ["steps", 2])).toEqual(NO_EDITS);
  });

  it("send keys first and tables of a list from the last place back", () => {
    let edits = toggleTable(NO_EDITS, FILE, ["steps", 1]);
    edits = putTable(edits, { file: FILE, path: ["steps", 4], values: { do: "stir" } });
    edits = setKey(edits, FILE, ["steps", 3, "amount"], "30 ml", "20 ml");
    edits = toggleTable(edits, FILE, ["steps", 5]);
    expect(toSend(edits).map((edit) => edit.path)).toEqual([
      ["steps", 3, "amount"],
      ["steps", 5],
      ["steps", 4],
      ["steps", 1],
    ]);
  });

  it("leave every step that is not named where it was, when applied in order", () => {
    const written = ["a", "b", "c", "d", "e"];
    let edits = NO_EDITS;
    edits = toggleTable(edits, FILE, ["steps", 0]);
    edits = toggleTable(edits, FILE, ["steps", 3]);
    edits = putTable(edits, { file: FILE, path: ["steps", 3], values: { do: "X" } });
    edits = putTable(edits, { file: FILE, path: ["steps", 5], values: { do: "Y" } });
    const steps = [...written];
    for (const { path, value } of toSend(edits)) {
      const place = Number(path[1]);
      if (value === null) steps.splice(place, 1);
      else steps.splice(place, 0, String((value as { do: string }).do));
    }
    expect(steps).toEqual(["b", "c", "X", "e", "Y"]);
  });

  it("replace the values of a table put in before, and drop it", () => {
    const put = putTable(NO_EDITS, { file: FILE, path: ["steps", 1], values: { do: "stir" } });
    const again = putTable(put, { file: FILE, path: ["steps", 1], values: { do: "shake" } });
    expect(again.added).toHaveLength(1);
    expect(dropTable(again, FILE, ["steps", 1])).toEqual(NO_EDITS);
  });

  it("give way to a file's text, in that file alone", () => {
    let edits = setKey(NO_EDITS, FILE, ["name"], "New", "Old");
    edits = setKey(edits, "pantry.toml", ["creamer", "name"], "New", "Old");
    const text = setText(edits, FILE, "name = 'Other'", "name = 'Old'");
    expect(toSend(text).map(({ file, path }) => [file, path.length])).toEqual([
      [FILE, 0],
      ["pantry.toml", 2],
    ]);
    expect(setText(text, FILE, "name = 'Old'", "name = 'Old'").texts).toEqual({});
  });

  it("count inside a table without counting its neighbours", () => {
    const edits = setKey(NO_EDITS, FILE, ["steps", 10, "amount"], "1", "2");
    expect(countIn(edits, FILE, ["steps", 10])).toBe(1);
    expect(countIn(edits, FILE, ["steps", 1])).toBe(0);
    expect(countIn(edits, FILE, [])).toBe(1);
  });

  it("take over what a weighing or a brand comes to", () => {
    const edits = takeOver(NO_EDITS, [
      { file: "pantry.toml", path: ["creamer", "density"], value: "0.455 g/ml" },
      { file: "pantry.toml", path: ["creamer", "allergens"], value: ["milk"] },
    ]);
    expect(toSend(edits)).toHaveLength(2);
    expect(heldAt(edits, "pantry.toml", ["creamer", "density"], null)).toBe("0.455 g/ml");
  });
});
