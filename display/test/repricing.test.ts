import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { plainDraft } from "../src/line/draft";
import type { Quote, TaxRule } from "../src/wire.gen";
import { build, menuDrink, menu as menuOf } from "./make";

const quote = (price: number, book: string): Quote => ({ price, build: { ...build("a"), book } });
const DRAFT = plainDraft(menuDrink());
const ON_TOP: TaxRule = { name: "GST", percent: "5", included: false, rounded: "order" };

let answers: (Response | "lost")[];
let asked: number;
let stop: () => void;

const json = (status: number, body: unknown): Response =>
  new Response(JSON.stringify(body), { status, headers: { "Content-Type": "application/problem+json" } });

/** The register with an order of two lines, 1.83 and 2.86, quoted by the book b1. */
async function openPage() {
  vi.resetModules();
  const order = await import("../src/register/order/order");
  const { outdated, keepPrices } = await import("../src/register/order/repricing");
  const { totals } = await import("../src/register/order/totals");
  const { menu } = await import("../src/link/shop");
  menu.value = { ...menuOf(), book: "b1", tax: ON_TOP };
  order.putLine(DRAFT, quote(183, "b1"), null);
  order.putLine({ ...DRAFT, size: "large" }, quote(286, "b1"), null);
  stop = keepPrices();
  return { order, outdated, totals, menu };
}

beforeEach(() => {
  vi.useFakeTimers();
  answers = [];
  asked = 0;
  vi.stubGlobal("sessionStorage", { getItem: () => null, setItem: () => undefined });
  vi.stubGlobal("fetch", () => {
    asked += 1;
    const next = answers.shift() ?? "lost";
    return next === "lost" ? Promise.reject(new TypeError("link down")) : Promise.resolve(next);
  });
});

afterEach(() => {
  stop();
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

describe("the register's total", () => {
  it("has the tax that comes on top: 1.83 + 2.86 and 5 % is 4.92 (Canada, Economic Action Plan 2012)", async () => {
    const { totals, menu } = await openPage();
    expect(totals.value).toEqual({ net: 469, tax: 23, gross: 492 });
    menu.value = undefined;
    expect(totals.value).toBeUndefined();
  });
});

describe("an open order, once the book has changed", () => {
  it("takes the new prices, and keeps what was told before", async () => {
    const { order, outdated, totals, menu } = await openPage();
    expect([outdated.value, asked]).toEqual([undefined, 0]);
    answers = [json(200, quote(200, "b2")), json(200, quote(286, "b2"))];
    menu.value = { ...menuOf(), book: "b2", tax: ON_TOP };
    expect(outdated.value).toBe(order.lines.value[0]);
    await vi.advanceTimersByTimeAsync(0);
    expect(outdated.value).toBeUndefined();
    expect(order.lines.value.map(({ unit, was, book }) => [unit, was, book])).toEqual([
      [200, 183, "b2"],
      [286, null, "b2"],
    ]);
    expect([totals.value?.net, asked]).toEqual([486, 2]);
  });

  it("says of a line that it can no longer be made, and why", async () => {
    const { order, menu } = await openPage();
    const refusal = { title: "No", detail: "There is no such drink.", status: 422, type: "/x", errors: [] };
    answers = [json(422, refusal), json(200, quote(286, "b2"))];
    menu.value = { ...menuOf(), book: "b2" };
    await vi.advanceTimersByTimeAsync(0);
    expect(order.lines.value.map((line) => line.refused)).toEqual(["There is no such drink.", null]);
  });

  it("asks again until there is an answer", async () => {
    const { outdated, menu } = await openPage();
    answers = ["lost", json(200, quote(183, "b2")), json(200, quote(286, "b2"))];
    menu.value = { ...menuOf(), book: "b2" };
    await vi.advanceTimersByTimeAsync(0);
    expect(outdated.value).toBeDefined();
    await vi.advanceTimersByTimeAsync(3000);
    expect([outdated.value, asked]).toEqual([undefined, 3]);
  });

  it("that may already be in is left as it was sent", async () => {
    const { order, outdated, menu } = await openPage();
    const ringing = order.ringIn();
    await vi.advanceTimersByTimeAsync(120_000);
    await ringing;
    expect(order.sending.value.state).toBe("unsure");
    const before = asked;
    menu.value = { ...menuOf(), book: "b2" };
    await vi.advanceTimersByTimeAsync(60_000);
    expect([outdated.value, asked]).toEqual([undefined, before]);
    expect(order.lines.value.map((line) => line.unit)).toEqual([183, 286]);
  });
});
