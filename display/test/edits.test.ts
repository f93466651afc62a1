import { describe, expect, it } from "vitest";
import {
  countIn,
  countOf,
  dropTable,
  filesOf,
  heldAt,
  isRemoved,
  NO_EDITS,
  onlyIn,
  putTable,
  setKey,
  setText,
  takeOver,
  toggleTable,
  withoutFile,
} from "../src/owner/book/edits";
import { kept, stillFits } from "../src/owner/book/keeping";
import { moveItem, putItem, toggleItem } from "../src/owner/book/places";
import { toSend } from "../src/owner/book/sending";
import { file } from "./makebench";

const FILE = "drinks/oolong.toml";
const STEPS = { file: FILE, path: ["steps"], count: 3 };

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

  it("count each step put in or taken out, and a new order once", () => {
    const put = putItem(NO_EDITS, STEPS, 2, {}).edits;
    expect(countOf(put)).toBe(1);
    const moved = moveItem(put, STEPS, 0, 1);
    expect(countOf(moved)).toBe(2);
    const without = toggleItem(moved, STEPS, 2);
    expect(countOf(without)).toBe(3);
    expect(countIn(without, FILE, [])).toBe(3);
    expect(countOf(toggleItem(NO_EDITS, STEPS, 0))).toBe(1);
  });

  it("do not send what is changed in a table that is taken out, and have it again when it is left in", () => {
    const edited = setKey(NO_EDITS, "pantry.toml", ["creamer", "density"], "0.5 g/ml", "0.4 g/ml");
    const without = toggleTable(edited, "pantry.toml", ["creamer"]);
    expect(isRemoved(without, "pantry.toml", ["creamer"])).toBe(true);
    expect(toSend(without)).toEqual([{ file: "pantry.toml", path: ["creamer"], value: null }]);
    expect(toggleTable(without, "pantry.toml", ["creamer"])).toEqual(edited);
  });

  it("send texts first, then tables, then lists in their order, then keys", () => {
    let edits = setKey(NO_EDITS, FILE, ["steps", 0, "amount"], "30 ml", "20 ml");
    edits = moveItem(edits, STEPS, 0, 1);
    edits = putTable(edits, { file: "pantry.toml", path: ["oat"], values: { name: "Oat" } });
    edits = setKey(edits, "pantry.toml", ["oat", "name"], "Oats", "Oat");
    edits = { ...edits, texts: { [FILE]: "name = 1" } };
    expect(toSend(edits).map((edit) => [edit.file, edit.path])).toEqual([
      [FILE, []],
      ["pantry.toml", ["oat"]],
      [FILE, ["steps"]],
      [FILE, ["steps", 1, "amount"]],
      ["pantry.toml", ["oat", "name"]],
    ]);
  });

  it("let a table that was put in go with all that was changed in it", () => {
    const put = putTable(NO_EDITS, { file: "pantry.toml", path: ["oat"], values: { name: "Oat" } });
    const edited = setKey(put, "pantry.toml", ["oat", "density"], "1 g/ml", null);
    expect(dropTable(edited, "pantry.toml", ["oat"])).toEqual(NO_EDITS);
  });

  it("take a file's text in place of its forms' edits, which stand in it by then, and of no other file's", () => {
    let edits = setKey(NO_EDITS, FILE, ["name"], "New", "Old");
    edits = setKey(edits, "pantry.toml", ["creamer", "name"], "New", "Old");
    const text = setText(edits, FILE, "name = 'Other'", "name = 'Old'");
    expect(toSend(text).map(({ file, path }) => [file, path.length])).toEqual([
      [FILE, 0],
      ["pantry.toml", 2],
    ]);
    expect(setText(text, FILE, "name = 'Old'", "name = 'Old'").texts).toEqual({});
    const more = setKey(text, FILE, ["name"], "Third", "Other");
    expect(toSend(more).filter((one) => one.file === FILE)).toHaveLength(2);
    expect(withoutFile(more, FILE)).toEqual(withoutFile(edits, FILE));
  });

  it("take a file away and leave it in again with all its edits", () => {
    const edited = moveItem(setText(NO_EDITS, FILE, "new", "old"), STEPS, 0, 1);
    const away = toggleTable(edited, FILE, []);
    expect(toSend(away)).toEqual([{ file: FILE, path: [], value: null }]);
    expect(toggleTable(away, FILE, [])).toEqual(edited);
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

describe("edits that are kept while the page is left", () => {
  const edits = moveItem(
    setText(
      toggleTable(setKey(NO_EDITS, "pantry.toml", ["creamer", "name"], "New", "Old"), "shop.toml", [
        "tools",
        "x",
      ]),
      "drinks/new.toml",
      "name = 'New'",
      undefined,
    ),
    STEPS,
    0,
    1,
  );
  const files = ["shop.toml", "pantry.toml", FILE].map((name) => file(name, []));

  it("come back whole when the book is as it was: moves, new drinks, what was taken out", () => {
    const held = JSON.parse(JSON.stringify(kept(edits, files)));
    expect(stillFits(held, files)).toEqual({ edits, lost: [] });
  });

  it("are put aside for the files that changed, by name, and for no others", () => {
    const changed = files.map((one) => (one.file === FILE ? { ...one, text: "another" } : one));
    const { edits: fit, lost } = stillFits(kept(edits, files), changed);
    expect(lost).toEqual([FILE]);
    expect(fit).toEqual(withoutFile(edits, FILE));
    expect(fit).toEqual(
      onlyIn(
        edits,
        filesOf(edits).filter((name) => name !== FILE),
      ),
    );
  });

  it("put a new drink aside when another of its id has come", () => {
    const { lost } = stillFits(kept(edits, files), [...files, file("drinks/new.toml", [])]);
    expect(lost).toEqual(["drinks/new.toml"]);
  });
});
