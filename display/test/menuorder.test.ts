import { describe, expect, it } from "vitest";
import { type Edits, NO_EDITS, setKey, toggleTable } from "../src/owner/book/edits";
import { moveThing, ordersEdited, type Row, rowsOf } from "../src/owner/book/order";
import { toSend } from "../src/owner/book/sending";
import type { Desk } from "../src/owner/book/sheets";
import { BOOK, entry, file, table } from "./makebench";

const drink = (id: string, family: string) =>
  file(`drinks/${id}.toml`, [table([], "drink", [entry("name", id.toUpperCase()), entry("family", family)])]);

const options = (...ids: string[]) => ids.map((id) => ({ value: id, name: id }));

const MENU: Desk["book"] = {
  ...BOOK,
  sources: [
    ...BOOK.sources,
    { name: "families", file: "shop.toml", path: ["families"], options: options("fruit", "milky") },
  ],
  files: [
    file("shop.toml", [
      table(["families", "fruit"], "families", [entry("name"), entry("drinks", ["mango"])]),
      table(["families", "milky"], "families", [entry("name")]),
    ]),
    drink("apple", "fruit"),
    drink("lemon", "fruit"),
    drink("mango", "fruit"),
    drink("taro", "milky"),
  ],
};

const row = (edits: Edits, name: string): Row => {
  const found = rowsOf({ book: MENU, edits }).find((one) => one.name === name);
  if (!found) throw new Error(`no row ${name}`);
  return found;
};
const ids = (edits: Edits, name: string): string[] => row(edits, name).things.map(({ value }) => value);

describe("the order of the menu", () => {
  it("has what a family lists first, then the others by their files", () => {
    expect(ids(NO_EDITS, "fruit")).toEqual(["mango", "apple", "lemon"]);
    expect(ids(NO_EDITS, "Headings on the register")).toEqual(["fruit", "milky"]);
  });

  it("is moved, and moved back is no edit", () => {
    const moved = moveThing(NO_EDITS, row(NO_EDITS, "Headings on the register"), "milky", -1);
    expect(ids(moved, "Headings on the register")).toEqual(["milky", "fruit"]);
    expect(
      rowsOf({ book: MENU, edits: moved })
        .map(({ name }) => name)
        .slice(1, 3),
    ).toEqual(["milky", "fruit"]);
    expect(ordersEdited(moved, rowsOf({ book: MENU, edits: moved }))).toBe(1);
    const back = moveThing(moved, row(moved, "Headings on the register"), "milky", 1);
    expect(back).toEqual(NO_EDITS);
    expect(moveThing(NO_EDITS, row(NO_EDITS, "fruit"), "mango", -1), "the first stays first").toBe(NO_EDITS);
  });

  it("names all drinks of a family once one is moved", () => {
    const moved = moveThing(NO_EDITS, row(NO_EDITS, "fruit"), "lemon", -1);
    expect(toSend(moved)).toEqual([
      { file: "shop.toml", path: ["families", "fruit", "drinks"], value: ["mango", "lemon", "apple"] },
    ]);
  });

  it("follows a drink that goes, or goes elsewhere", () => {
    expect(ids(toggleTable(NO_EDITS, "drinks/mango.toml", []), "fruit")).toEqual(["apple", "lemon"]);
    const moved = setKey(NO_EDITS, "drinks/lemon.toml", ["family"], "milky", "fruit");
    expect(ids(moved, "milky")).toEqual(["lemon", "taro"]);
  });

  it("is sent last, without what is taken out", () => {
    const sugars = row(NO_EDITS, "Sugar levels");
    const moved = moveThing(NO_EDITS, sugars, "100", -1);
    const more = setKey(
      setKey(moved, "shop.toml", ["sugar", "60"], "some", null),
      "shop.toml",
      ["sugar", "0"],
      null,
      "no",
    );
    expect(toSend(more).map(({ path, value }) => [path.join("."), value])).toEqual([
      ["sugar.60", "some"],
      ["sugar.0", null],
      ["sugar", ["100"]],
    ]);
  });
});
