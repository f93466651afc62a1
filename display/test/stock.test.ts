import { describe, expect, it } from "vitest";
import { options } from "../src/line/choices";
import { type Draft, plainDraft } from "../src/line/draft";
import { sentence, spoken } from "../src/line/sentence";
import { missing, ownMilk, ownMilkOut, soldOutWhy } from "../src/line/stock";
import type { Menu } from "../src/wire.gen";
import { menuDrink, menu as menuOf } from "./make";

/** A drink whose own recipe takes whole milk: `uses` names the ingredient and the milk. */
const LATTE = menuDrink({ uses: ["oolong_tea", "whole_milk", "whole"] });
const MENU = menuOf([LATTE]);
const out = (...ids: string[]): ReadonlySet<string> => new Set(ids);

describe("a drink", () => {
  it("is had while a milk is left that it can be made with, and not when none is", () => {
    expect(soldOutWhy(MENU, LATTE, out("whole"))).toBeNull();
    expect(soldOutWhy(MENU, LATTE, out("oat"))).toBeNull();
    expect(soldOutWhy(MENU, LATTE, out("whole", "oat"))).toBe("sold out");
  });

  it("whose own milk is not among its choices is had with one of those", () => {
    const drink = { ...LATTE, milks: ["oat"] };
    expect(soldOutWhy(MENU, drink, out("whole"))).toBeNull();
    expect(soldOutWhy(MENU, drink, out("whole", "oat"))).toBe("sold out");
  });

  it("without a choice of milk is not had without its own", () => {
    expect(soldOutWhy(MENU, { ...LATTE, milks: [] }, out("whole"))).toBe("sold out");
  });

  it("is not had without what else goes in, nor when it is out itself", () => {
    expect(soldOutWhy(MENU, LATTE, out("oolong_tea"))).toBe("sold out");
    expect(soldOutWhy(MENU, LATTE, out("oolong_tea", "whole"))).toBe("sold out");
    expect(soldOutWhy(MENU, LATTE, out("oolong"))).toBe("sold out");
    expect(soldOutWhy(MENU, LATTE, out("pearls", "taro"))).toBeNull();
  });

  it("that takes no milk is had when every milk is out", () => {
    expect(soldOutWhy(MENU, menuDrink({ uses: ["oolong_tea"] }), out("whole", "oat"))).toBeNull();
  });
});

describe("the choice of milk", () => {
  it("says which milk is out where the drink's own is not to be had", () => {
    const choosing = { menu: MENU, drink: LATTE, draft: plainDraft(LATTE), write: String };
    const offered = (...ids: string[]) =>
      options("milk", { ...choosing, soldOut: out(...ids) }).map(({ id, refused }) => [id, refused]);
    expect(offered("whole")).toEqual([
      ["", "sold out"],
      ["oat", null],
    ]);
    expect(offered("oat")).toEqual([
      ["", null],
      ["oat", "sold out"],
    ]);
    expect(ownMilkOut(MENU, LATTE, out("oat"))).toEqual([]);
  });

  it("has one button for the recipe's own milk and the same milk, by its name", () => {
    const choosing = (draft: Draft) => ({ menu: MENU, drink: LATTE, draft, soldOut: out(), write: String });
    const plain = plainDraft(LATTE);
    const shown = (draft: Draft) =>
      options("milk", choosing(draft)).map(({ id, label, detail, chosen }) => [id, label, detail, chosen]);
    expect(shown(plain)).toEqual([
      ["", "Whole milk", "its own", true],
      ["oat", "Oat milk", "+40", false],
    ]);
    expect(shown({ ...plain, milk: "whole" })[0]?.[3]).toBe(true);
    expect(spoken(sentence(MENU, plain))).toContain(", its own whole milk, ");
  });

  it("keeps two buttons where choosing the milk is more than nothing", () => {
    const [whole, oat] = MENU.milks;
    if (!whole || !oat) throw new Error("the menu of the tests has two milks");
    const dear: Menu = { ...MENU, milks: [{ ...whole, price: 20 }, oat] };
    expect(ownMilk(MENU, LATTE)?.id).toBe("whole");
    expect(ownMilk(dear, LATTE)).toBeUndefined();
    expect(ownMilk(MENU, { ...LATTE, uses: ["whole", "oat"] })).toBeUndefined();
    expect(ownMilk(MENU, { ...LATTE, milks: ["oat"] })).toBeUndefined();
  });
});

describe("what of a line has run out", () => {
  const plain = plainDraft(LATTE);

  it("is its own milk, until another is chosen that is there", () => {
    expect(missing(MENU, LATTE, plain, out("whole"))).toEqual([{ slot: "milk", name: "whole milk" }]);
    expect(missing(MENU, LATTE, { ...plain, milk: "oat" }, out("whole"))).toEqual([]);
    expect(missing(MENU, LATTE, { ...plain, milk: "oat" }, out("oat"))).toEqual([
      { slot: "milk", name: "oat milk" },
    ]);
  });

  it("is each topping and the drink itself", () => {
    const draft = { ...plain, toppings: [{ topping: "pearls", half: true }] };
    expect(missing(MENU, LATTE, draft, out("pearls", "jelly", "oolong"))).toEqual([
      { slot: "drink", name: LATTE.name },
      { slot: "toppings", name: "pearls" },
    ]);
  });
});
