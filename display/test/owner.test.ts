import { describe, expect, it } from "vitest";
import { answered, asked, begin, complete, right, scoreWords } from "../src/learn/round";
import { brandIn, EMPTY_FORM, weightsOf } from "../src/owner/brandform";
import { scaleEnd } from "../src/owner/movers";
import { faultAt, faultsElsewhere, keyName, keyOf, subjects } from "../src/owner/subjects";
import { drinkSentence } from "../src/owner/trying";
import { plainDraft } from "../src/register/draft";
import type {
  BookFault,
  BookFile,
  Checked,
  Entry,
  FormTable,
  TrainingDrink,
  Workbook,
} from "../src/wire.gen";
import { menu, menuDrink } from "./make";

const entry = (path: (string | number)[], kind: Entry["kind"] = "text"): Entry => ({
  path,
  key: String(path.at(-1)),
  value: "x",
  kind,
  help: "",
  accepted: "",
  options: [],
  needed: false,
  comment: "",
  line: 1,
});

const table = (path: (string | number)[], entries: Entry[]): FormTable => ({
  path,
  title: path.join(" ") || "top",
  help: "",
  line: 1,
  repeats: false,
  entries,
});

const file = (name: string, tables: FormTable[]): BookFile => ({ file: name, title: name, tables, text: "" });

const BOOK: Workbook = {
  version: "v1",
  open: "v1",
  note: "",
  at: null,
  holds: null,
  faults: [],
  files: [
    file("shop.toml", [
      table(["shop"], [entry(["shop", "name"])]),
      table(["tools", "scoop"], [entry(["tools", "scoop", "holds"])]),
      table(["ice", "less"], [entry(["ice", "less", "name"])]),
    ]),
    file("pantry.toml", [table(["creamer"], [entry(["creamer", "price"], "quantity")])]),
    file("extras.toml", [table(["shot"], [entry(["shot", "price"], "price"), entry(["shot", "name"])])]),
    file("drinks/oolong.toml", [
      table([], [entry(["name"])]),
      table(["prices"], [entry(["prices", "small"], "price")]),
      table(["steps", 2], [entry(["steps", 2, "amount"], "quantity")]),
    ]),
  ],
};

const fault = (name: string, key: string): BookFault => ({
  file: name,
  line: 1,
  key,
  found: "",
  accepted: "",
  message: "",
});

describe("the subjects of the bench", () => {
  it("show every table somewhere", () => {
    const shown = (["Drinks", "Pantry", "Tools", "Modifiers", "Shop"] as const).flatMap((group) =>
      subjects(BOOK, group).flatMap((subject) => subject.sheets.map((sheet) => sheet.table)),
    );
    const prices = subjects(BOOK, "Prices").flatMap((subject) => subject.sheets);
    const all = BOOK.files.flatMap((one) => one.tables);
    expect(all.filter((one) => !shown.includes(one)).map((one) => one.path)).toEqual([["prices"]]);
    expect(prices.map((sheet) => sheet.table.entries.map((one) => one.path))).toEqual([
      [["prices", "small"]],
      [["shot", "price"]],
    ]);
  });

  it("find a fault at its field; places in a list count from 1 in a fault", () => {
    expect(keyOf(["steps", 2, "amount"])).toBe("steps.3.amount");
    const faults = [fault("drinks/oolong.toml", "steps.3.amount"), fault("shop.toml", "shop.name")];
    expect(faultAt(faults, "drinks/oolong.toml", { path: ["steps", 2, "amount"] })).toBe(faults[0]);
    expect(faultAt(faults, "drinks/other.toml", { path: ["steps", 2, "amount"] })).toBeUndefined();
    const sheets = subjects(BOOK, "Drinks")[0]?.sheets ?? [];
    expect(faultsElsewhere(faults, sheets)).toEqual([faults[1]]);
  });

  it("write keys as people read them", () => {
    expect(keyName("least_share")).toBe("Least share");
  });
});

describe("the sentence of the bench", () => {
  it("leaves out how many and the note, which belong to an order", () => {
    const held = menu();
    const drink = held.drinks[0] ?? menuDrink();
    const pieces = drinkSentence(held, plainDraft(drink));
    const said = pieces.map((piece) => piece.text).join("");
    expect(pieces.some((piece) => piece.slot === "note" || piece.slot === "quantity")).toBe(false);
    expect(said).not.toContain("note");
    expect(said).toMatch(/^One .*[^, ]\.$/);
  });
});

describe("a change of brand", () => {
  it("reads one weight or several, with a comma or a point", () => {
    expect(weightsOf("9.4")).toEqual([9.4]);
    expect(weightsOf("9,4  9.2;9.5")).toEqual([9.4, 9.2, 9.5]);
    expect(weightsOf("")).toEqual([]);
    expect(weightsOf("9.4 abc")).toContain("abc");
    expect(weightsOf("0")).toContain("not a weight");
  });

  it("sends only what was filled in, and says which figure is none", () => {
    const form = {
      ...EMPTY_FORM,
      ingredient: "creamer",
      tool: "scoop",
      weights: "9.1",
      label: { sugars_g: "9" },
    };
    expect(brandIn(form)).toEqual({
      ingredient: "creamer",
      tool: "scoop",
      unit_g: 9.1,
      readings_g: [],
      label: { sugars_g: 9 },
      keep_mass: false,
    });
    expect(brandIn({ ...form, weights: "" })).not.toHaveProperty("tool");
    expect(brandIn({ ...form, label: { fat_g: "much" } })).toContain("Fat");
  });

  it("draws the movers on a scale that ends past the longest bar", () => {
    const mover = (worst_pct: number) => ({
      drink: "a",
      name: "A",
      worst_pct,
      worst_label: "",
      doses: [],
      refused: [],
      allergens: [],
    });
    expect([[], [mover(3)], [mover(20)], [mover(36.6)], [mover(140)]].map(scaleEnd)).toEqual([
      2, 5, 20, 50, 200,
    ]);
  });
});

describe("a round of training", () => {
  const drink: TrainingDrink = {
    seed: 1,
    book: "v1",
    line: menuDrink().default,
    title: "",
    words: [],
    about: "",
    stations: [],
    scores: false,
    steps: [1, 2].map((number) => ({
      number,
      action: "scoop",
      label: "Creamer",
      asks: "amount" as const,
      kind: "scoop",
      unit: "scoops",
      choices: [{ count: 1, text: "1 scoop" }],
    })),
  };
  const told = (good: boolean): Checked => ({
    right: good,
    station_right: good,
    count_right: good,
    station: "",
    count: 1,
    text: "",
    why: "",
    score: null,
  });

  it("asks each step once, in order, and counts what was right", () => {
    let round = begin(drink);
    expect(asked(round)?.number).toBe(1);
    round = answered(round, { station: "tea", count: 1, checked: told(true) });
    expect(asked(round)?.number).toBe(2);
    round = answered(round, { station: "tea", count: 1, checked: told(false) });
    expect(asked(round)).toBeUndefined();
    expect(right(round)).toBe(1);
    expect(scoreWords(round)).toBe("1 of 2 steps right.");
  });

  it("wants a station and, where one is asked, an amount", () => {
    const step = drink.steps[0];
    if (!step) throw new Error("the drink has steps");
    expect(complete(step, "", 1)).toBe(false);
    expect(complete(step, "tea", null)).toBe(false);
    expect(complete(step, "tea", 1)).toBe(true);
    expect(complete({ ...step, asks: "station", choices: [] }, "tea", null)).toBe(true);
  });
});
