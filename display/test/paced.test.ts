import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { Paced } from "../src/link/paced";

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

/** Work of `length` ms, with the times at which it began. */
function worker(length: number) {
  const begun: number[] = [];
  const start = Date.now();
  const work = async (): Promise<void> => {
    begun.push(Date.now() - start);
    if (length > 0) await new Promise((done) => setTimeout(done, length));
  };
  return { begun, work };
}

describe("paced work", () => {
  it("goes on in a rush that wants it ten times a second, a pause apart", async () => {
    const { begun, work } = worker(0);
    const paced = new Paced(work, 2000);
    for (let tenths = 0; tenths < 99; tenths += 1) {
      paced.want();
      await vi.advanceTimersByTimeAsync(100);
    }
    expect(begun).toEqual([0, 2000, 4000, 6000, 8000]);
  });

  it("that takes longer than the pause is let finish before it is begun again", async () => {
    const { begun, work } = worker(3000);
    const paced = new Paced(work, 2000);
    for (let tenths = 0; tenths < 110; tenths += 1) {
      paced.want();
      await vi.advanceTimersByTimeAsync(100);
    }
    expect(begun).toEqual([0, 5000, 10_000]);
  });

  it("is done once more for what was wanted last, and then rests", async () => {
    const { begun, work } = worker(0);
    const paced = new Paced(work, 2000);
    paced.want();
    await vi.advanceTimersByTimeAsync(10);
    paced.want();
    paced.want();
    await vi.advanceTimersByTimeAsync(60_000);
    expect(begun).toEqual([0, 2000]);
    paced.want();
    expect(begun).toEqual([0, 2000, 60_010]);
  });

  it("goes on after a failure, and not after a stop", async () => {
    let tries = 0;
    const paced = new Paced(() => {
      tries += 1;
      return Promise.reject(new Error("down"));
    }, 2000);
    paced.want();
    await vi.advanceTimersByTimeAsync(10);
    paced.want();
    await vi.advanceTimersByTimeAsync(2000);
    expect(tries).toBe(2);
    paced.want();
    paced.stop();
    await vi.advanceTimersByTimeAsync(60_000);
    paced.want();
    expect([tries, vi.getTimerCount()]).toEqual([2, 0]);
  });
});
