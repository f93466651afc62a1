import { describe, expect, it } from "vitest";
import { allergens, icing, stations, tools } from "../src/owner/measure/choose";
import type { FormTable, Workbook } from "../src/wire.gen";

const table = (path: (string | number)[], keys: Record<string, string | string[]>): FormTable => ({
  path,
  title: path.join(" "),
  line: 1,
  shape: "",
  written: true,
  entries: Object.entries(keys).map(([key, value]) => ({ key, value, comment: "", line: 1 })),
});

const file = (name: string, tables: FormTable[]) => ({ file: name, title: name, tables, text: "" });

const BOOK: Workbook = {
  version: "v1",
  open: "v1",
  note: "",
  at: null,
  holds: null,
  sources: [
    {
      name: "allergens",
      file: "",
      path: [],
      options: [
        { value: "milk", name: "milk" },
        { value: "soy", name: "soybeans" },
      ],
    },
  ],
  shapes: [],
  faults: [],
  files: [
    file("shop.toml", [
      table(["stations", "tea"], { name: "Tea" }),
      table(["stations", "shake"], { name: "Ice & shake" }),
      table(["tools", "scoop"], { name: "level scoop", kind: "scoop" }),
      table(["tools", "pump"], { name: "pump", kind: "pump" }),
    ]),
    file("pantry.toml", [table(["creamer"], { name: "Creamer", allergens: ["milk"] })]),
    file("drinks/one.toml", [
      table(["steps", 0], { station: "tea", do: "pour", what: "tea" }),
      table(["steps", 1], { station: "shake", do: "ice", what: "ice" }),
    ]),
    file("drinks/two.toml", [
      table(["steps", 0], { station: "tea", do: "ice", what: "ice" }),
      table(["steps", 1], { station: "tea", do: "pour", what: "tea" }),
    ]),
    file("drinks/three.toml", [table(["steps", 0], { station: "shake", do: "ice", what: "ice" })]),
  ],
};

describe("what there is to choose from", () => {
  it("offers the stations in the order of the counter, first the one that ices most drinks", () => {
    expect(stations(BOOK).map((one) => one.name)).toEqual(["Tea", "Ice & shake"]);
    expect(icing(BOOK)).toBe("shake");
    expect(icing({ ...BOOK, files: [] })).toBeUndefined();
  });

  it("offers the tools of a kind", () => {
    expect(tools(BOOK, "pump")).toEqual([{ id: "pump", name: "pump" }]);
  });

  it("names the allergens that can be told, and those that are", () => {
    expect(allergens(BOOK, "creamer")).toEqual({
      all: [
        { id: "milk", name: "milk" },
        { id: "soy", name: "soybeans" },
      ],
      said: ["milk"],
    });
    expect(allergens(BOOK, "water").said).toEqual([]);
  });
});
