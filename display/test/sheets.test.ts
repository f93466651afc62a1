import { describe, expect, it } from "vitest";
import { type Edits, NO_EDITS, putTable, setKey, toggleTable } from "../src/owner/book/edits";
import { idFrom, isId, shortened } from "../src/owner/book/ids";
import { optionsOf } from "../src/owner/book/offers";
import { moveItem, putItem, toggleItem } from "../src/owner/book/places";
import { type Desk, removable, type Sheet, sheetsOf } from "../src/owner/book/sheets";
import {
  faultAt,
  faultIn,
  faultsElsewhere,
  fileName,
  keyName,
  keyOf,
  kindsIn,
  subjects,
} from "../src/owner/book/subjects";
import { likes, objection, putThing } from "../src/owner/book/things";
import type { BookFault, BookFile, TableShape } from "../src/wire.gen";
import { BOOK, OOLONG, SHAPES } from "./makebench";

const STEPS = { file: OOLONG, path: ["steps"], count: 3 };
const at = (edits: Edits = NO_EDITS): Desk => ({ book: BOOK, edits });
const drink = (edits: Edits = NO_EDITS): Sheet[] => subjects(at(edits), "Drinks")[0]?.sheets as Sheet[];
const steps = (edits: Edits): Sheet[] => drink(edits).filter((sheet) => sheet.list);
const pantry = BOOK.files.find((one) => one.file === "pantry.toml") as BookFile;
const kind = (one: string): TableShape => SHAPES.find((shape) => shape.one === one) as TableShape;

const fault = (file: string, key: string): BookFault => ({
  file,
  line: 1,
  key,
  found: "",
  accepted: "",
  message: "",
});

describe("the subjects of the bench", () => {
  it("call a file by its title, and a drink that is gone by its file", () => {
    const { files } = BOOK;
    expect(fileName(files, files[0]?.file ?? "")).toBe(files[0]?.title);
    expect(fileName(files, "drinks/cha_de_taro.toml")).toBe("Cha de taro");
    expect(fileName([], "pantry.toml")).toBe("pantry.toml");
  });

  it("show every table somewhere, prices in a place of their own as well", () => {
    const shown = (["Drinks", "Pantry", "Tools", "Modifiers", "Shop"] as const).flatMap((group) =>
      subjects(at(), group).flatMap((subject) =>
        subject.sheets.flatMap((sheet) => [sheet, ...sheet.inner].map((one) => one.path.join("."))),
      ),
    );
    const all = BOOK.files.flatMap((file) => file.tables.map((table) => table.path.join(".")));
    expect([...shown].sort()).toEqual([...all].sort());
    const prices = subjects(at(), "Prices").flatMap((subject) => subject.sheets);
    expect(prices.map((sheet) => [sheet.title, sheet.fields.map((field) => field.key)])).toEqual([
      ["Oolong", ["small", "large"]],
      ["x", ["price"]],
    ]);
  });

  it("offer more of each kind in its group, steps within their drink", () => {
    expect(kindsIn(SHAPES, "Tools").map((one) => one.one)).toEqual(["tool", "cup size"]);
    expect(kindsIn(SHAPES, "Modifiers").map((one) => one.one)).toEqual(["sugar level"]);
    expect(kindsIn(SHAPES, "Drinks")).toEqual([]);
  });

  it("write keys as people read them", () => {
    expect(keyName("least_share")).toBe("Least share");
  });
});

describe("a recipe's steps as forms", () => {
  it("stand in their present order, with what is taken out in its old seat", () => {
    let edits = moveItem(NO_EDITS, STEPS, 2, -1);
    edits = toggleItem(edits, STEPS, 0);
    edits = putItem(edits, STEPS, 2, { do: "pour" }).edits;
    edits = setKey(edits, OOLONG, ["steps", "+1", "what"], "tea", null);
    expect(steps(edits).map((one) => [one.title, one.list?.place, one.out, one.fresh])).toEqual([
      ["scoop CREAMER", -1, true, false],
      ["stir", 0, false, false],
      ["pour TEA", 1, false, true],
      ["pour TEA", 2, false, false],
    ]);
  });

  it("have a place for another ingredient at an ice level, also when they are new", () => {
    const edits = putItem(NO_EDITS, STEPS, null, { do: "pour" }).edits;
    const [made, scoop] = steps(edits);
    expect(made?.inner.map((one) => one.path)).toEqual([["steps", "+1", "instead"]]);
    expect(made?.inner[0]?.fields.map((one) => one.label)).toEqual(["NONE"]);
    expect(scoop?.inner.map((one) => one.written)).toEqual([false]);
  });

  it("show a fault where the step stands now", () => {
    expect(keyOf(["steps", 2, "amount"])).toBe("steps.3.amount");
    const moved = moveItem(moveItem(NO_EDITS, STEPS, 2, -1), STEPS, 2, -1);
    const faults = [fault(OOLONG, "steps.1.amount"), fault("shop.toml", "shop.name")];
    expect(faultAt(faults, moved, OOLONG, ["steps", 2, "amount"])).toBe(faults[0]);
    expect(faultAt(faults, moved, OOLONG, ["steps", 0, "amount"])).toBeUndefined();
    expect(faultAt(faults, NO_EDITS, OOLONG, ["steps", 0, "amount"])).toBe(faults[0]);
    expect(faultsElsewhere(faults, moved, drink(moved))).toEqual([faults[1]]);
    expect(steps(moved).map((one) => faultIn(faults, moved, one) !== undefined)).toEqual([
      true,
      false,
      false,
    ]);
  });
});

describe("tables that may be left out", () => {
  it("have a form without being written, and what they can hold is what the drink puts in", () => {
    const keep = drink().find((one) => one.path[0] === "keep");
    expect(keep?.written).toBe(false);
    expect(keep?.fields.map((one) => [one.key, one.label])).toEqual([
      ["creamer", "CREAMER"],
      ["tea", "TEA"],
    ]);
  });

  it("can be taken out when they are written; tables that must be there cannot", () => {
    const of = (path: string): Sheet => drink().find((one) => one.path.join(".") === path) as Sheet;
    expect([of(""), of("prices"), of("keep"), of("steps.0")].map(removable)).toEqual([
      false,
      false,
      false,
      true,
    ]);
  });
});

describe("what a choice can be of", () => {
  it("has what was put in and is not saved, by the name that it has now, and not what is taken out", () => {
    let edits = putTable(NO_EDITS, { file: "pantry.toml", path: ["oat"], values: { name: "Oat" } });
    edits = setKey(edits, "pantry.toml", ["oat", "name"], "Oat foam", "Oat");
    edits = setKey(edits, "pantry.toml", ["tea", "name"], "Black tea", "Tea");
    edits = toggleTable(edits, "pantry.toml", ["creamer"]);
    expect(optionsOf(BOOK, edits, "pantry")).toEqual([
      { value: "tea", name: "Black tea" },
      { value: "oat", name: "Oat foam" },
    ]);
  });

  it("has sugar levels, which are keys, and sizes to be priced", () => {
    let edits = setKey(NO_EDITS, "shop.toml", ["sugar", "60"], "some sugar", null);
    edits = setKey(edits, "shop.toml", ["sugar", "0"], null, "no sugar");
    expect(optionsOf(BOOK, edits, "sugars").map((one) => one.value)).toEqual(["100", "60"]);
    const bigger = putTable(edits, { file: "shop.toml", path: ["sizes", "huge"], values: { name: "Huge" } });
    const prices = subjects(at(bigger), "Prices")[0]?.sheets[0];
    expect(prices?.fields.map((one) => one.label)).toEqual(["SMALL", "LARGE", "Huge"]);
  });
});

describe("one more of a kind", () => {
  it("gets its id from its name", () => {
    expect(idFrom("Crème brûlée, large")).toBe("creme_brulee_large");
    expect(idFrom("  Grandma’s   Straße ")).toBe("grandmas_strasse");
    expect(idFrom("7 Seas")).toBe("no_7_seas");
    expect(idFrom("芋头")).toBe("");
    expect(idFrom(`${"a".repeat(39)} b`)).toBe("a".repeat(39));
    expect([idFrom("x"), "", "9a", "A", "a".repeat(41)].map(isId)).toEqual([
      true,
      false,
      false,
      false,
      false,
    ]);
  });

  it("has a short name of whole words for a narrow cell", () => {
    expect(shortened("Oat foam")).toBe("Oat foam");
    expect(shortened("Roasted hazelnut syrup")).toBe("Roasted");
    expect(shortened("Strawberrymarmalade")).toBe("Strawberrymarm");
  });

  it("begins with the figures of another, as they are now, but with its own names", () => {
    const edits = setKey(NO_EDITS, "pantry.toml", ["creamer", "density"], "0.5 g/ml", "0.4 g/ml");
    const [like] = likes(at(edits), kind("ingredient"));
    const made = putThing(edits, { kind: kind("ingredient"), name: "Oat foam ", id: "oat_foam", like });
    expect(made.added).toEqual([
      {
        file: "pantry.toml",
        path: ["oat_foam"],
        values: { name: "Oat foam", short: "Oat foam", density: "0.5 g/ml" },
      },
    ]);
    const sheets = sheetsOf(at(made), pantry);
    expect(sheets.map((one) => [one.title, one.fresh])).toEqual([
      ["Creamer", false],
      ["Oat foam", true],
    ]);
    expect(objection(at(made), { kind: kind("ingredient"), name: "Oat", id: "oat_foam", like })).toContain(
      "Oat foam",
    );
  });

  it("has measuring words of its own, so that no amount can be read for two tools", () => {
    const [like] = likes(at(), kind("tool"));
    const made = putThing(NO_EDITS, { kind: kind("tool"), name: "Teaspoon", id: "teaspoon", like });
    expect(made.added[0]?.values).toEqual({
      name: "Teaspoon",
      one: "teaspoon",
      many: "teaspoons",
      holds: "20 ml",
    });
  });

  it("says what it lacks, and whose id it has", () => {
    const wanted = { kind: kind("tool"), name: "Scoop", id: "scoop", like: undefined };
    expect(objection(at(), wanted)).toContain("SCOOP");
    expect(objection(at(), { ...wanted, id: "scoop_two" })).toBe("");
    expect(objection(at(), { ...wanted, name: " " })).toContain("name");
    expect(objection(at(), { ...wanted, id: "Scoop!" })).toContain("small letters");
  });

  it("is a key where a kind has keys, by its per cent", () => {
    const wanted = { kind: kind("sugar level"), name: "some sugar", id: "60", like: undefined };
    expect(objection(at(), wanted)).toBe("");
    expect(objection(at(), { ...wanted, id: "100" })).toContain("100");
    expect(objection(at(), { ...wanted, id: "some" })).toContain("per cent");
    expect(putThing(NO_EDITS, wanted).changes).toEqual([
      { file: "shop.toml", path: ["sugar", "60"], value: "some sugar" },
    ]);
  });
});
