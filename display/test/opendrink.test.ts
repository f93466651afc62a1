import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { Difference, Menu, Quote } from "../src/wire.gen";
import { build, menuDrink, menu as menuOf } from "./make";

const MENU = menuOf([menuDrink(), menuDrink({ id: "lemon", name: "Lemon Tea" })]);
const RECEIPT = { id: "9", number: 3, name: "", day: "2026-11-25", rung_at: 1, lines: [], totals: {} };

let kept: Map<string, string>;
let rung: { name: string; drinks: { line: { drink: string; size: string }; quantity: number }[] }[];
let asked: string[];
/** What a quote is answered with: its price, a refusal, or nothing for ever. */
let quoting: "priced" | "refused" | "silent";

const json = (status: number, body: unknown): Response =>
  new Response(JSON.stringify(body), { status, headers: { "Content-Type": "application/json" } });

function answer(path: string, request: RequestInit): Promise<Response> {
  asked.push(path);
  if (path === "/api/orders") {
    rung.push(JSON.parse(String(request.body)));
    return Promise.resolve(json(201, RECEIPT));
  }
  if (quoting === "refused")
    return Promise.resolve(json(422, { type: "/x", title: "No", status: 422, detail: "It does not fit." }));
  if (quoting === "silent") return new Promise(() => undefined);
  const quote: Quote = { price: 450, build: build("a") };
  const difference: Difference = { ...quote, gross: 450, due: 450, after: 520 };
  return Promise.resolve(json(200, path.endsWith("/difference") ? difference : quote));
}

/** The register's page anew, with what this tab kept from before. */
async function openPage() {
  vi.resetModules();
  const shop = await import("../src/link/shop");
  (shop.menu as { value: Menu | undefined }).value = MENU;
  const order = await import("../src/register/order/order");
  const quotes = await import("../src/register/drink/quoting");
  const state = await import("../src/register/drink/state");
  const hand = await import("../src/register/drink/opendrink");
  const sums = await import("../src/register/order/totals");
  return { ...order, ...quotes, ...state, ...hand, ...sums };
}

/** So long that a touch is no bounce of the one before. */
const deliberate = () => vi.advanceTimersByTimeAsync(400);
const settled = () => vi.advanceTimersByTimeAsync(0);

beforeEach(() => {
  vi.useFakeTimers();
  kept = new Map();
  rung = [];
  asked = [];
  quoting = "priced";
  vi.stubGlobal("sessionStorage", {
    getItem: (name: string) => kept.get(name) ?? null,
    setItem: (name: string, value: string) => kept.set(name, value),
  });
  vi.stubGlobal("fetch", answer);
});

afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

describe("a drink that is open in the middle", () => {
  it("is rung in with the order, and counted in what that comes to", async () => {
    const at = await openPage();
    at.choose("oolong");
    await settled();
    at.add();
    at.choose("lemon");
    await settled();
    expect([at.allCups.value, at.totals.value?.gross]).toEqual([2, 900]);
    at.ringInAll();
    await settled();
    expect(rung.map((one) => one.drinks.map(({ line }) => line.drink))).toEqual([["oolong", "lemon"]]);
    expect([at.receipt.value?.number, at.draft.value]).toEqual([3, undefined]);
  });

  it("is an order by itself, rung in as soon as its price has come", async () => {
    const at = await openPage();
    at.choose("oolong");
    at.ringInAll();
    expect(at.ringing.value).toBe(true);
    await settled();
    expect(rung.map((one) => one.drinks.length)).toEqual([1]);
  });

  it("goes into the order when the next one is begun, and out again if it was not wanted", async () => {
    const at = await openPage();
    at.choose("oolong");
    await settled();
    at.choose("lemon");
    await settled();
    expect(at.lines.value.map((line) => line.draft.drink)).toEqual(["oolong"]);
    expect(at.added.value).toBe(at.lines.value[0]?.key);
    expect(at.draft.value?.drink).toBe("lemon");
  });

  it("is touched once by a finger that bounces, and twice by one that means it", async () => {
    vi.stubGlobal("matchMedia", () => ({ matches: true }));
    const at = await openPage();
    at.choose("oolong");
    at.choose("oolong");
    expect(at.lines.value).toEqual([]);
    await deliberate();
    at.choose("oolong");
    await settled();
    expect([at.lines.value.length, at.draft.value?.drink]).toEqual([1, "oolong"]);
    at.add();
    at.ringInAll();
    await settled();
    expect([rung, at.lines.value.length]).toEqual([[], 2]);
    await deliberate();
    at.ringInAll();
    await settled();
    expect(rung[0]?.drinks.length).toBe(2);
  });

  it("goes in before its price has come too", async () => {
    const at = await openPage();
    quoting = "silent";
    at.choose("oolong");
    at.choose("lemon");
    expect(at.lines.value.map((line) => [line.draft.drink, line.title, line.book])).toEqual([
      ["oolong", "Small Roasted Oolong Milk Tea", ""],
    ]);
  });

  it("that cannot be made stays open, whatever is touched, and says so", async () => {
    const at = await openPage();
    quoting = "refused";
    at.choose("oolong");
    await settled();
    at.choose("lemon");
    expect(at.draft.value?.drink).toBe("oolong");
    expect(at.stuck.value).toMatch(/cannot be made as it stands/);
    at.ringInAll();
    await settled();
    expect([rung, at.draft.value?.drink]).toEqual([[], "oolong"]);
    quoting = "priced";
    at.draft.value = at.draft.value && { ...at.draft.value, size: "large" };
    expect(at.stuck.value).toBe("");
  });

  it("changes its line of the order when another is touched", async () => {
    const at = await openPage();
    at.choose("oolong");
    await settled();
    at.add();
    const [line] = at.lines.value;
    if (!line) throw new Error("no line");
    at.edit(line);
    at.draft.value = at.draft.value && { ...at.draft.value, size: "large" };
    await settled();
    at.choose("lemon");
    expect(at.lines.value.map((one) => [one.key, one.draft.size])).toEqual([[line.key, "large"]]);
    expect(at.added.value).toBeNull();
  });

  it("is taken up again after it was cancelled, until another is chosen", async () => {
    const at = await openPage();
    at.choose("oolong");
    at.draft.value = at.draft.value && { ...at.draft.value, note: "no lid" };
    at.cancel();
    expect(at.draft.value).toBeUndefined();
    at.takeUp();
    expect([at.draft.value?.note, at.aside.value]).toEqual(["no lid", null]);
    at.cancel();
    at.choose("lemon");
    expect(at.aside.value).toBeNull();
  });

  it("survives the page, with the word that is open", async () => {
    const before = await openPage();
    before.choose("oolong");
    before.draft.value = before.draft.value && { ...before.draft.value, sugar: 50 };
    before.open.value = "sugar";
    const after = await openPage();
    expect([after.draft.value?.sugar, after.open.value]).toEqual([50, "sugar"]);
    await settled();
    expect(after.quoted.value.state).toBe("quote");
    after.cancel();
    expect((await openPage()).draft.value).toBeUndefined();
  });

  it("is not put into an order that may be in already", async () => {
    const at = await openPage();
    at.choose("oolong");
    await settled();
    at.add();
    at.sending.value = { state: "unsure", why: "no answer" };
    at.choose("lemon");
    await settled();
    at.choose("oolong");
    expect([at.draft.value?.drink, at.lines.value.length]).toEqual(["lemon", 1]);
    at.ringInAll();
    await settled();
    expect(rung[0]?.drinks.map(({ line }) => line.drink)).toEqual(["oolong"]);
    expect(at.draft.value?.drink).toBe("lemon");
  });
});

describe("a cup that is rung in", () => {
  const CUP = { id: "7.2", number: 12, name: "Ana", was: "Small Oolong" };
  const LINE = build("a").line;

  it("is opened once what was open is in the order, and asks what its order then comes to", async () => {
    const at = await openPage();
    at.choose("lemon");
    await settled();
    expect(at.changeCup(CUP, LINE, "no lid")).toBe(true);
    await settled();
    expect(at.lines.value.map((line) => line.draft.drink)).toEqual(["lemon"]);
    expect(asked.at(-1)).toBe("/api/drinks/7.2/difference");
    expect(at.quoted.value).toMatchObject({ state: "quote", quote: { due: 450, after: 520 } });
    expect([at.allCups.value, at.totals.value?.gross]).toEqual([1, 450]);
  });

  it("becomes another drink by a touch on the menu, and is never added to the order being taken", async () => {
    const at = await openPage();
    at.changeCup(CUP, LINE, "");
    await settled();
    at.choose("lemon");
    expect([at.draft.value?.drink, at.draft.value?.size, at.cup.value?.id]).toEqual([
      "lemon",
      "large",
      "7.2",
    ]);
    expect(at.putIn()).toBe(false);
    expect([at.lines.value, at.canRingIn.value]).toEqual([[], false]);
    expect((await openPage()).cup.value).toEqual(CUP);
  });
});
