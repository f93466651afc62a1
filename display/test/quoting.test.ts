import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { plainDraft } from "../src/line/draft";
import { ANSWER_MS } from "../src/link/api";
import { askAgain, draft, lastQuote, quoted, telling } from "../src/register/drink/quoting";
import type { Quote } from "../src/wire.gen";
import { build, menuDrink } from "./make";

const WITH_MILK: Quote = {
  price: 450,
  build: {
    ...build("a"),
    allergens: ["milk"],
    cautions: [{ code: "very hot", words: "hot", figures: [70] }],
    notes: [{ code: "smaller", words: "small", thing: "", figures: [80] }],
  },
};
const PLAIN = plainDraft(menuDrink());

let asked: number;
/** Answers in the order of asking; what is not here never comes. */
let answers: Quote[];

beforeEach(() => {
  vi.useFakeTimers();
  asked = 0;
  answers = [WITH_MILK];
  vi.stubGlobal("fetch", (_path: string, request: RequestInit) => {
    asked += 1;
    const next = answers.shift();
    if (next) return Promise.resolve(new Response(JSON.stringify(next), { status: 200 }));
    return new Promise((_, reject) => {
      request.signal?.addEventListener("abort", () => reject(new DOMException("called off", "AbortError")));
    });
  });
});

afterEach(() => {
  draft.value = undefined;
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

async function quotedOnce(): Promise<void> {
  draft.value = PLAIN;
  await vi.advanceTimersByTimeAsync(0);
  expect(telling(quoted.value)).toEqual({
    contains: "milk",
    caffeine: "60 mg",
    cautions: ["hot"],
    notes: ["small"],
  });
}

describe("what must be told of the line", () => {
  it("is not what was true of the one before, while the answer is on its way", async () => {
    await quotedOnce();
    draft.value = { ...PLAIN, milk: "oat" };
    expect(telling(quoted.value)).toEqual({
      contains: "asking …",
      caffeine: "asking …",
      cautions: [],
      notes: [],
    });
    expect(lastQuote(quoted.value)?.price).toBe(450);
  });

  it("is not known once the answer has not come in time, and is asked for again", async () => {
    await quotedOnce();
    draft.value = { ...PLAIN, milk: "oat" };
    await vi.advanceTimersByTimeAsync(ANSWER_MS);
    expect(quoted.value.state).toBe("down");
    expect([telling(quoted.value).contains, lastQuote(quoted.value)]).toEqual(["not known", null]);
    answers = [{ ...WITH_MILK, price: 490 }];
    await vi.advanceTimersByTimeAsync(3000);
    expect(quoted.value).toMatchObject({ state: "quote", quote: { price: 490 } });
  });

  it("stays while only the count or the note changes, and nothing is asked", async () => {
    await quotedOnce();
    const next = { ...PLAIN, quantity: 3, note: "no lid" };
    draft.value = next;
    expect(telling(quoted.value).contains).toBe("milk");
    expect(quoted.value).toMatchObject({ state: "quote", draft: next });
    expect(asked).toBe(1);
  });

  it("is asked for anew when it is due, though the line is the same", async () => {
    await quotedOnce();
    askAgain.value += 1;
    expect([telling(quoted.value).contains, asked]).toEqual(["asking …", 2]);
  });
});
