/** A book of a few tables for the tests of the bench, with the shapes that the service tells. */
import type { BookFile, Entry, FieldShape, FormTable, TableShape, Workbook } from "../src/wire.gen";

export const field = (key: string, more: Partial<FieldShape> = {}): FieldShape => ({
  key,
  kind: "text",
  help: "",
  accepted: "",
  source: "",
  needed: true,
  ...more,
});

export const shape = (name: string, more: Partial<TableShape> = {}): TableShape => ({
  name,
  help: "",
  fields: [],
  more: null,
  keys: "",
  one: "",
  file: "shop.toml",
  path: [],
  ordered: false,
  optional: false,
  ...more,
});

export const entry = (key: string, value: Entry["value"] = "x"): Entry => ({
  key,
  value,
  comment: "",
  line: 1,
});

export const table = (
  path: (string | number)[],
  of: string,
  entries: Entry[] = [],
  written = true,
): FormTable => ({ path, title: path.join(" ") || "top", line: 1, shape: of, written, entries });

export const file = (name: string, tables: FormTable[]): BookFile => ({
  file: name,
  title: name,
  tables,
  text: `text of ${name}`,
});

const price = field("", { kind: "price", needed: false });

export const SHAPES: TableShape[] = [
  shape("shop", { path: ["shop"], fields: [field("name")] }),
  shape("tools", {
    path: ["tools"],
    one: "tool",
    fields: [field("name"), field("one"), field("many"), field("holds", { kind: "quantity" })],
  }),
  shape("sizes", { path: ["sizes"], one: "cup size", fields: [field("name")] }),
  shape("sugar", {
    path: ["sugar"],
    one: "sugar level",
    keys: "percents",
    more: field("", { needed: false }),
  }),
  shape("pantry", {
    file: "pantry.toml",
    one: "ingredient",
    fields: [field("name"), field("short"), field("density", { kind: "quantity" })],
  }),
  shape("shot", {
    file: "extras.toml",
    path: ["shot"],
    fields: [field("price", { kind: "price" }), field("name")],
  }),
  shape("drink", { file: "drinks/", fields: [field("name")] }),
  shape("prices", { file: "drinks/", path: ["prices"], more: price, keys: "sizes" }),
  shape("keep", {
    file: "drinks/",
    path: ["keep"],
    more: field("", { needed: false }),
    keys: "pantry",
    optional: true,
  }),
  shape("step", {
    file: "drinks/",
    path: ["steps"],
    one: "step",
    ordered: true,
    fields: [
      field("do", { kind: "choice", source: "actions" }),
      field("what", { kind: "choice", source: "pantry", needed: false }),
      field("amount", { kind: "quantity", needed: false }),
    ],
  }),
  shape("instead", {
    file: "drinks/",
    path: ["steps", "*", "instead"],
    more: field("", { needed: false }),
    keys: "ices",
    optional: true,
  }),
];

const source = (name: string, where: string, path: string[], ids: string[]): Workbook["sources"][number] => ({
  name,
  file: where,
  path,
  options: ids.map((id) => ({ value: id, name: id.toUpperCase() })),
});

export const OOLONG = "drinks/oolong.toml";

export const BOOK: Workbook = {
  version: "v1",
  open: "v1",
  note: "",
  at: null,
  holds: null,
  faults: [],
  shapes: SHAPES,
  sources: [
    source("actions", "", [], ["pour", "scoop", "stir"]),
    source("tools", "shop.toml", ["tools"], ["scoop"]),
    source("sizes", "shop.toml", ["sizes"], ["small", "large"]),
    source("sugars", "shop.toml", ["sugar"], ["0", "100"]),
    source("ices", "shop.toml", ["ice"], ["none"]),
    source("pantry", "pantry.toml", [], ["creamer", "tea"]),
  ],
  files: [
    file("shop.toml", [
      table(["shop"], "shop", [entry("name")]),
      table(["tools", "scoop"], "tools", [
        entry("name", "level scoop"),
        entry("one", "scoop"),
        entry("many", "scoops"),
        entry("holds", "20 ml"),
      ]),
      table(["sizes", "small"], "sizes", [entry("name")]),
      table(["sugar"], "sugar", [entry("0", "no sugar"), entry("100", "full sugar")]),
    ]),
    file("pantry.toml", [
      table(["creamer"], "pantry", [
        entry("name", "Creamer"),
        entry("short", "Cr"),
        entry("density", "0.4 g/ml"),
      ]),
    ]),
    file("extras.toml", [table(["shot"], "shot", [entry("price", "0.90"), entry("name")])]),
    file(OOLONG, [
      table([], "drink", [entry("name", "Oolong")]),
      table(["prices"], "prices", [entry("small", "3.30")]),
      table(["steps", 0], "step", [
        entry("do", "scoop"),
        entry("what", "creamer"),
        entry("amount", "2 scoops"),
      ]),
      table(["steps", 0, "instead"], "instead", [], false),
      table(["steps", 1], "step", [entry("do", "pour"), entry("what", "tea")]),
      table(["steps", 2], "step", [entry("do", "stir")]),
      table(["keep"], "keep", [], false),
    ]),
  ],
};
