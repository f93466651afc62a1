import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { plainDraft } from "../src/line/draft";
import type { Quote } from "../src/wire.gen";
import { build, menuDrink } from "./make";

let kept: Map<string, string>;
let asked: { key: string | null; body: string }[];
let answers: (Response | "lost")[];

const RECEIPT = { id: "9", number: 3, name: "", day: "2026-11-25", rung_at: 1, lines: [], totals: {} };
const QUOTE: Quote = { price: 450, build: build("a") };
const json = (status: number, body: unknown): Response =>
  new Response(JSON.stringify(body), { status, headers: { "Content-Type": "application/problem+json" } });

/** The register's order as it is when the page opens, with what this tab kept from before. */
async function openPage() {
  vi.resetModules();
  return import("../src/register/order/order");
}

beforeEach(() => {
  vi.useFakeTimers();
  kept = new Map();
  asked = [];
  answers = [];
  vi.stubGlobal("sessionStorage", {
    getItem: (name: string) => kept.get(name) ?? null,
    setItem: (name: string, value: string) => kept.set(name, value),
  });
  vi.stubGlobal("fetch", (_path: string, request: RequestInit) => {
    asked.push({ key: new Headers(request.headers).get("Idempotency-Key"), body: String(request.body) });
    const next = answers.shift() ?? "lost";
    return next === "lost" ? Promise.reject(new TypeError("link down")) : Promise.resolve(next);
  });
});

afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

async function rung(order: Awaited<ReturnType<typeof openPage>>) {
  const ringing = order.ringIn();
  await vi.runAllTimersAsync();
  return ringing;
}

describe("the order", () => {
  it("adds up by quantity, and a line taken to none is out", async () => {
    const order = await openPage();
    order.putLine({ ...plainDraft(menuDrink()), quantity: 2 }, QUOTE, null);
    order.putLine(plainDraft(menuDrink()), QUOTE, null);
    expect([order.amounts.value, order.cups.value]).toEqual([[900, 450], 3]);
    const first = order.lines.value[0]?.key ?? "";
    order.setQuantity(first, 0);
    expect([order.amounts.value, order.cups.value]).toEqual([[450], 1]);
  });

  it("puts lines taken out back where they were, the last one first", async () => {
    const order = await openPage();
    const titles = ["one", "two", "three"];
    for (const title of titles) {
      const quote = { ...QUOTE, build: { ...QUOTE.build, title } };
      order.putLine({ ...plainDraft(menuDrink()), quantity: 2 }, quote, null);
    }
    const said = () => order.lines.value.map((line) => line.title);
    const [first, second] = order.lines.value.map((line) => line.key);
    order.setQuantity(first ?? "", 0);
    order.setQuantity(second ?? "", 0);
    expect(said()).toEqual(["three"]);
    order.putBack();
    expect(said()).toEqual(["two", "three"]);
    order.putBack();
    expect([said(), order.cups.value]).toEqual([titles, 6]);
    order.putBack();
    expect(said()).toEqual(titles);
  });

  it("lets go of what was taken out once another line is put in", async () => {
    const order = await openPage();
    order.putLine(plainDraft(menuDrink()), QUOTE, null);
    order.setQuantity(order.lines.value[0]?.key ?? "", 0);
    order.putLine(plainDraft(menuDrink()), QUOTE, null);
    expect(order.removed.value).toEqual([]);
    expect(order.latest.value).toBe(order.lines.value[0]?.key);
  });

  it("takes a line before its price has come, which is then no new price", async () => {
    const order = await openPage();
    order.putUnpriced(plainDraft(menuDrink()), "Small Oolong", null);
    const [line] = order.lines.value;
    expect([line?.title, line?.unit, line?.book]).toEqual(["Small Oolong", 0, ""]);
    const { repriced } = await import("../src/register/order/repricing");
    if (!line) throw new Error("no line");
    expect(repriced(line, QUOTE, "b1")).toMatchObject({ unit: 450, was: null, title: "Drink a", book: "b1" });
  });

  it("takes an edited line in the place of the one before", async () => {
    const order = await openPage();
    order.putLine(plainDraft(menuDrink()), QUOTE, null);
    const key = order.lines.value[0]?.key ?? "";
    order.putLine({ ...plainDraft(menuDrink()), size: "large" }, { ...QUOTE, price: 600 }, key);
    expect(order.lines.value.map((line) => [line.key, line.draft.size, line.unit])).toEqual([
      [key, "large", 600],
    ]);
  });
});

describe("ringing in", () => {
  it("gives the receipt and empties the order for the next customer", async () => {
    const order = await openPage();
    order.putLine(plainDraft(menuDrink()), QUOTE, null);
    answers = [json(201, RECEIPT)];
    expect(await rung(order)).toEqual(RECEIPT);
    expect([order.lines.value, order.receipt.value?.number, order.locked.value]).toEqual([[], 3, false]);
  });

  it("that was never answered keeps the order locked, and is tried again with the same key and body", async () => {
    const order = await openPage();
    order.putLine(plainDraft(menuDrink()), QUOTE, null);
    await rung(order);
    expect([order.sending.value.state, order.locked.value, order.lines.value.length]).toEqual([
      "unsure",
      true,
      1,
    ]);
    order.setQuantity(order.lines.value[0]?.key ?? "", 5);
    expect(order.cups.value).toBe(1);
    answers = [json(200, RECEIPT)];
    await rung(order);
    expect(order.receipt.value?.number).toBe(3);
    expect(new Set(asked.map((one) => `${one.key} ${one.body}`)).size).toBe(1);
    expect(asked.length).toBeGreaterThan(2);
  });

  it("survives the page being closed before the answer, with the same key", async () => {
    const before = await openPage();
    before.putLine(plainDraft(menuDrink()), QUOTE, null);
    await rung(before);
    const after = await openPage();
    expect([after.sending.value.state, after.cups.value]).toEqual(["unsure", 1]);
    answers = [json(200, RECEIPT)];
    await rung(after);
    expect(new Set(asked.map((one) => one.key)).size).toBe(1);
  });

  it("that met a fault of the service's may be in: it stays locked, and goes again with the same key", async () => {
    const order = await openPage();
    order.putLine(plainDraft(menuDrink()), QUOTE, null);
    const fault = { title: "A fault of ours", detail: "The service met a fault.", status: 500, type: "/x" };
    answers = Array.from({ length: 8 }, () => json(500, fault));
    await rung(order);
    expect(order.sending.value).toMatchObject({ state: "unsure", why: "The service met a fault." });
    expect(order.locked.value).toBe(true);
    answers = [json(200, RECEIPT)];
    expect(await rung(order)).toEqual(RECEIPT);
    expect(new Set(asked.map((one) => `${one.key} ${one.body}`)).size).toBe(1);
  });

  it("that is let go and changed is another order, with another key", async () => {
    const order = await openPage();
    order.putLine(plainDraft(menuDrink()), QUOTE, null);
    await rung(order);
    order.letGo();
    order.setQuantity(order.lines.value[0]?.key ?? "", 2);
    answers = [json(200, RECEIPT)];
    await rung(order);
    expect(new Set(asked.map((one) => one.key)).size).toBe(2);
  });

  it("that is refused says why, and can be changed and rung in anew", async () => {
    const order = await openPage();
    order.putLine(plainDraft(menuDrink()), QUOTE, null);
    const errors = [{ field: "drinks[0]", value: "pearls", accepted: "what is not sold out" }];
    answers = [
      json(409, { title: "Sold out", detail: "Pearls are sold out.", status: 409, type: "/x", errors }),
    ];
    await rung(order);
    expect(order.sending.value).toMatchObject({ state: "refused", why: "Pearls are sold out." });
    expect([order.locked.value, order.lines.value.length, asked.length]).toEqual([false, 1, 1]);
  });

  it("does nothing with an empty order", async () => {
    const order = await openPage();
    expect(await rung(order)).toBeUndefined();
    expect(asked).toEqual([]);
  });
});
