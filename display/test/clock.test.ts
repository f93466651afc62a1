import { describe, expect, it } from "vitest";
import { offsetOf, type RoundTrip, ServiceClock, shortest } from "../src/link/clock";

describe("the offset", () => {
  it("of a round trip takes half of it as the way back", () => {
    expect(offsetOf({ sent: 100, received: 140, service: 5120 })).toBe(5000);
  });

  it("is taken from the shortest trip, the newest of equals", () => {
    const trips: RoundTrip[] = [
      { sent: 0, received: 80, service: 1 },
      { sent: 100, received: 110, service: 2 },
      { sent: 200, received: 210, service: 3 },
      { sent: 300, received: 900, service: 4 },
    ];
    expect(shortest(trips)).toBe(trips[2]);
    expect(shortest([])).toBeUndefined();
  });
});

describe("the clock", () => {
  it("is never further off than half the shortest trip, whichever way was slow", () => {
    // The true offset is 1 000 000; the service stamps at any point within the trip.
    for (const slowness of [0, 0.25, 0.5, 1]) {
      let local = 0;
      const clock = new ServiceClock(() => local);
      for (const length of [300, 40, 900]) {
        const sent = local;
        local += length;
        clock.learn({ sent, received: local, service: 1_000_000 + sent + length * slowness });
      }
      expect(Math.abs(clock.now() - (1_000_000 + local))).toBeLessThanOrEqual(20);
    }
  });

  it("takes a one-way hint only until a round trip is known", () => {
    let local = 50;
    const clock = new ServiceClock(() => local);
    clock.hint(7050);
    expect(clock.now()).toBe(7050);
    clock.learn({ sent: 50, received: 50, service: 9050 });
    clock.hint(1);
    local = 60;
    expect(clock.now()).toBe(9060);
  });

  it("forgets old trips, so that two clocks that drift apart are found out", () => {
    let local = 0;
    const clock = new ServiceClock(() => local);
    clock.learn({ sent: 0, received: 1, service: 500 });
    for (let index = 0; index < 12; index += 1) {
      local += 1000;
      clock.learn({ sent: local - 10, received: local, service: local + 995 });
    }
    expect(clock.now()).toBe(local + 1000);
  });

  it("is right at the first trip after a sleep in which our steady clock stood still", () => {
    let local = 0;
    const clock = new ServiceClock(() => local);
    // Trips of 10 ms before; then 30 min pass that we know nothing of, and a slow trip of 400 ms.
    for (let index = 0; index < 12; index += 1) {
      local += 4000;
      clock.learn({ sent: local - 10, received: local, service: 1_000_000 + local - 5 });
    }
    const slept = 30 * 60_000;
    local += 400;
    clock.learn({ sent: local - 400, received: local, service: 1_000_000 + slept + local - 100 });
    expect(Math.abs(clock.now() - (1_000_000 + slept + local))).toBeLessThanOrEqual(200);
  });

  it("keeps a short trip that a slow and lopsided one does not contradict", () => {
    let local = 10;
    const clock = new ServiceClock(() => local);
    clock.learn({ sent: 0, received: 10, service: 1_000_005 });
    local = 1010;
    // All of the second trip's 900 ms were spent on the way back: half of it is its bound.
    clock.learn({ sent: 110, received: 1010, service: 1_000_110 });
    expect(clock.now()).toBe(1_001_010);
  });

  it("takes a hint again once the trips of a connection that ended are forgotten", () => {
    const clock = new ServiceClock(() => 0);
    clock.learn({ sent: 0, received: 0, service: 500 });
    clock.forget();
    expect(clock.now()).toBe(500);
    clock.hint(90_000);
    expect(clock.now()).toBe(90_000);
  });
});
