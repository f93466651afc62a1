import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { Unreachable } from "../src/link/api";
import { MenuKeeper } from "../src/link/menukeeper";
import type { Menu } from "../src/wire.gen";
import { menu } from "./make";

let answers: ((menu: Menu | Error) => void)[];
let keeper: MenuKeeper;
const of = (book: string): Menu => ({ ...menu(), book });

/** Answers the oldest question that waits. */
async function answer(given: Menu | Error): Promise<void> {
  const next = answers.shift();
  if (!next) throw new Error("nothing was asked");
  next(given);
  await vi.advanceTimersByTimeAsync(0);
}

beforeEach(() => {
  vi.useFakeTimers();
  answers = [];
  keeper = new MenuKeeper(
    () =>
      new Promise((resolve, reject) => {
        answers.push((given) => (given instanceof Error ? reject(given) : resolve(given)));
      }),
  );
});

afterEach(() => {
  vi.useRealTimers();
});

describe("the menu", () => {
  it("is read again when the book changed while it was on its way", async () => {
    keeper.want("b1");
    keeper.want("b2");
    expect(answers).toHaveLength(1);
    await answer(of("b1"));
    await vi.advanceTimersByTimeAsync(250);
    await answer(of("b2"));
    expect(keeper.menu.value?.book).toBe("b2");
    await vi.advanceTimersByTimeAsync(600_000);
    expect(answers).toHaveLength(0);
  });

  it("that did not come is told, and read again until it comes", async () => {
    keeper.want("b1");
    await answer(new Unreachable("No answer."));
    expect([keeper.menu.value, keeper.fault.value]).toEqual([undefined, "No answer."]);
    for (const pause of [250, 1000, 5000]) {
      await vi.advanceTimersByTimeAsync(pause - 1);
      expect(answers).toHaveLength(0);
      await vi.advanceTimersByTimeAsync(1);
      await answer(new Unreachable("No answer."));
    }
    await vi.advanceTimersByTimeAsync(5000);
    await answer(of("b1"));
    expect([keeper.menu.value?.book, keeper.fault.value]).toEqual(["b1", undefined]);
  });

  it("is asked for ever more seldom while the service's own two books differ", async () => {
    keeper.want("b2");
    let asked = 0;
    for (let seconds = 0; seconds < 60; seconds += 1) {
      if (answers.length > 0) {
        asked += 1;
        await answer(of("b1"));
      }
      await vi.advanceTimersByTimeAsync(1000);
      // Every change of the queue says it again.
      keeper.want("b2");
    }
    expect(asked).toBeLessThanOrEqual(15);
  });

  it("is not asked for twice at a time, and shows faults as they come and go", async () => {
    keeper.want("b1");
    await answer(of("b1"));
    void keeper.read();
    void keeper.read();
    expect(answers).toHaveLength(1);
    const fault = { file: "shop.toml", line: 1, key: "x", found: "y", accepted: "z", message: "no" };
    await answer({ ...of("b1"), faults: [fault] });
    expect(keeper.menu.value?.faults).toHaveLength(1);
    void keeper.read();
    await answer(of("b1"));
    expect(keeper.menu.value?.faults).toEqual([]);
  });
});
