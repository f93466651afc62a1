import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { ANSWER_MS, ask, newKey, OWNER_ANSWER_MS, Refused, reason, send, Unreachable } from "../src/link/api";

type Answer = Response | Error | "never";
let answers: Answer[];
let asked: { path: string; key: string | null; body: string }[];

const json = (status: number, body: unknown, type = "application/json"): Response =>
  new Response(JSON.stringify(body), { status, headers: { "Content-Type": type } });
/** What fetch does while nothing comes: it settles only when it is called off (the Fetch standard's abort steps). */
const never = (signal: AbortSignal | null | undefined): Promise<Response> =>
  new Promise((_, reject) => {
    signal?.addEventListener("abort", () => reject(new DOMException("called off", "AbortError")));
  });
const PROBLEM = {
  type: "/problems/x",
  title: "No",
  status: 422,
  detail: "Pearls do not go into hot drinks.",
  errors: [],
};

beforeEach(() => {
  vi.useFakeTimers();
  answers = [];
  asked = [];
  vi.stubGlobal("fetch", (path: string, request: RequestInit) => {
    asked.push({
      path,
      key: new Headers(request.headers).get("Idempotency-Key"),
      body: String(request.body),
    });
    const next = answers.shift();
    if (next === "never") return never(request.signal);
    return next instanceof Response
      ? Promise.resolve(next)
      : Promise.reject(next ?? new TypeError("no answer"));
  });
});

afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

async function through<Value>(sending: Promise<Value>): Promise<Value | Error> {
  const outcome = sending.catch((error: Error) => error);
  await vi.runAllTimersAsync();
  return outcome;
}

describe("a command", () => {
  it("is sent again with the same key and body until it is answered", async () => {
    answers = [new TypeError("link down"), json(503, { detail: "starting" }), json(200, { number: 7 })];
    const failed: number[] = [];
    const onRetry = (count: number) => failed.push(count);
    const outcome = await through(
      send("/api/orders", { name: "Ana" }, { key: "k1", pauses: [10, 20, 30], onRetry }),
    );
    expect(outcome).toEqual({ number: 7 });
    expect(failed).toEqual([1, 2]);
    expect(new Set(asked.map((one) => `${one.key} ${one.body}`))).toEqual(new Set(['k1 {"name":"Ana"}']));
    expect(asked).toHaveLength(3);
  });

  it("gives up after its last pause, as unreachable: it may have been done", async () => {
    const outcome = await through(send("/api/orders", {}, { key: "k", pauses: [10] }));
    expect(outcome).toBeInstanceOf(Unreachable);
    expect(asked).toHaveLength(2);
  });

  it("that is refused is not sent again, and says why", async () => {
    answers = [json(422, PROBLEM, "application/problem+json")];
    const outcome = await through(send("/api/quote", {}, { pauses: [10] }));
    expect(outcome).toBeInstanceOf(Refused);
    expect(reason(outcome)).toBe("Pearls do not go into hot drinks.");
    expect(asked).toHaveLength(1);
  });

  it("refused without a problem document is told by its status", async () => {
    answers = [new Response("<html>", { status: 404, headers: { "Content-Type": "text/html" } })];
    expect(reason(await through(ask("/api/nothing")))).toBe("The service answered 404");
  });

  it.each([500, 501, 502, 503, 504, 507])(
    "that meets a %i may have been done: it is sent again",
    async (status) => {
      answers = [json(status, { ...PROBLEM, status }), json(200, { number: 7 })];
      expect(await through(send("/api/orders", {}, { key: "k", pauses: [10] }))).toEqual({ number: 7 });
      answers = [json(status, { ...PROBLEM, status, detail: "The service met a fault." })];
      const outcome = await through(send("/api/orders", {}, { key: "k" }));
      expect(outcome).toBeInstanceOf(Unreachable);
      expect(reason(outcome)).toBe("The service met a fault.");
    },
  );

  it("whose answer never comes is given up after five seconds, and sent again", async () => {
    answers = ["never", json(200, { number: 7 })];
    const outcome = send("/api/orders", {}, { key: "k", pauses: [10] });
    await vi.advanceTimersByTimeAsync(ANSWER_MS - 1);
    expect(asked).toHaveLength(1);
    await vi.advanceTimersByTimeAsync(11);
    expect(await outcome).toEqual({ number: 7 });
  });

  it("whose answer breaks off in the middle may have been done", async () => {
    const body = new ReadableStream({ start: (stream) => stream.error(new TypeError("link down")) });
    answers = [new Response(body, { status: 200 }), new Response('{"numb', { status: 200 })];
    expect(await through(ask("/api/orders"))).toBeInstanceOf(Unreachable);
    expect(await through(ask("/api/orders"))).toBeInstanceOf(Unreachable);
  });

  it("whose answer hangs in the middle is given up as well", async () => {
    vi.stubGlobal("fetch", (_path: string, request: RequestInit) => {
      const body = new ReadableStream({
        start: (stream) =>
          request.signal?.addEventListener("abort", () => stream.error(request.signal?.reason)),
      });
      return Promise.resolve(new Response(body, { status: 200 }));
    });
    expect(await through(ask("/api/orders"))).toBeInstanceOf(Unreachable);
  });

  it("of the owner, which may resolve a whole menu, is given more time", async () => {
    answers = ["never"];
    let settled = false;
    const outcome = ask("/api/owner/versions").finally(() => {
      settled = true;
    });
    const caught = outcome.catch((error: Error) => error);
    await vi.advanceTimersByTimeAsync(OWNER_ANSWER_MS - 1);
    expect(settled).toBe(false);
    await vi.advanceTimersByTimeAsync(1);
    expect(await caught).toBeInstanceOf(Unreachable);
  });

  it("called off by whoever asked, while it waits, is not unreachable", async () => {
    answers = ["never"];
    const stale = new AbortController();
    const outcome = ask("/api/orders", stale.signal).catch((error: Error) => error);
    stale.abort();
    expect(((await outcome) as Error).name).toBe("AbortError");
    expect(vi.getTimerCount()).toBe(0);
  });

  it("that was called off stays called off", async () => {
    answers = [new DOMException("stopped", "AbortError") as unknown as Error];
    const outcome = await through(send("/api/quote", {}, { pauses: [10] }));
    expect((outcome as Error).name).toBe("AbortError");
    expect(asked).toHaveLength(1);
  });
});

describe("a key", () => {
  it("is a version 4 UUID (RFC 9562, 5.4) where crypto.randomUUID is missing, as on plain http", () => {
    const plain = { getRandomValues: crypto.getRandomValues.bind(crypto) };
    const keys = Array.from({ length: 200 }, () => newKey(plain));
    for (const key of keys)
      expect(key).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
    expect(new Set(keys).size).toBe(200);
  });
});
