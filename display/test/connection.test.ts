import { signal } from "@preact/signals";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { ServiceClock } from "../src/link/clock";
import { BEAT_MS, type Connection, follow, type Line } from "../src/link/connection";
import { change, snapshot, ticket } from "./make";

/** A socket in the hand: what was sent is kept, what arrives is said by the test. */
class HeldLine implements Line {
  connected = false;
  readonly sent: unknown[][] = [];
  private readonly heard = new Map<string, (...said: never[]) => void>();

  on(event: string, heard: (...said: never[]) => void): void {
    this.heard.set(event, heard);
  }

  emit(event: string, ...said: unknown[]): void {
    this.sent.push([event, ...said]);
  }

  disconnect(): void {
    this.connected = false;
  }

  say(event: string, ...said: unknown[]): void {
    if (event === "connect") this.connected = true;
    if (event === "disconnect") this.connected = false;
    this.heard.get(event)?.(...(said as never[]));
  }

  follows(): unknown[] {
    return this.sent.filter(([event]) => event === "follow").map(([, asked]) => asked);
  }
}

let line: HeldLine;
let connection: Connection;
let time: number;
const tick = signal(0);

function pass(ms: number): void {
  time += ms;
  vi.advanceTimersByTime(ms);
  tick.value += 1;
}

beforeEach(() => {
  vi.useFakeTimers();
  time = 0;
  line = new HeldLine();
  connection = follow(line, tick, new ServiceClock(() => time), () => time);
});

afterEach(() => {
  connection.close();
  vi.useRealTimers();
});

describe("the connection", () => {
  it("joins from nothing at first, and from the last position after a break", () => {
    line.say("connect");
    line.say("snapshot", snapshot(4, [ticket(1)]));
    line.say("change", change(4, 6, { tickets: [ticket(2)] }));
    line.say("disconnect");
    line.say("connect");
    expect(line.follows()).toEqual([
      { since: null, store: null },
      { since: 6, store: "s1" },
    ]);
  });

  it("asks for the rest when a change does not fit, and shows nothing in between", () => {
    line.say("connect");
    line.say("snapshot", snapshot(4, [ticket(1)]));
    line.say("change", change(5, 6, { tickets: [ticket(3)] }));
    expect(connection.queue.value?.tickets.map((one) => one.id)).toEqual(["1"]);
    expect(line.follows().at(-1)).toEqual({ since: 4, store: "s1" });
    line.say("change", change(4, 6, { tickets: [ticket(2), ticket(3)] }));
    expect(connection.queue.value?.tickets.map((one) => one.id)).toEqual(["1", "2", "3"]);
  });

  it("takes a snapshot whole, even one from before (the shop began anew)", () => {
    line.say("connect");
    line.say("snapshot", snapshot(40, [ticket(1), ticket(2)]));
    line.say("snapshot", snapshot(2, [ticket(1)]));
    expect(connection.queue.value?.position).toBe(2);
  });

  it("applies nothing of another store: it asks, naming its own, and takes the snapshot that comes", () => {
    line.say("connect");
    line.say("snapshot", snapshot(4, [ticket(1), ticket(2)]));
    // The data folder was put back from a copy: positions of the other journal fit by chance, or lie behind.
    line.say("change", change(4, 5, { store: "s2", tickets: [ticket(9)] }));
    line.say("change", change(2, 3, { store: "s2", gone: ["1"] }));
    expect(connection.queue.value?.tickets.map((one) => one.id)).toEqual(["1", "2"]);
    expect(line.follows().slice(1)).toEqual([
      { since: 4, store: "s1" },
      { since: 4, store: "s1" },
    ]);
    line.say("snapshot", { ...snapshot(5, [ticket(9)]), store: "s2" });
    expect(connection.queue.value?.tickets.map((one) => one.id)).toEqual(["9"]);
    line.say("disconnect");
    line.say("connect");
    expect(line.follows().at(-1)).toEqual({ since: 5, store: "s2" });
  });

  it("tells who listens what changed, and nothing for a resend", () => {
    const heard: [number, number][] = [];
    connection.onChange((before, after) => heard.push([before.position, after.position]));
    line.say("connect");
    line.say("snapshot", snapshot(4, []));
    line.say("change", change(4, 5));
    line.say("change", change(4, 5));
    expect(heard).toEqual([[4, 5]]);
  });

  it("learns the time from each beat and sends them while connected only", () => {
    pass(BEAT_MS);
    expect(line.sent).toEqual([]);
    line.say("connect");
    pass(BEAT_MS * 2);
    expect(line.sent.filter(([event]) => event === "clock")).toHaveLength(3);
  });

  it("begins to learn the time anew when it joins again", () => {
    const forget = vi.spyOn(ServiceClock.prototype, "forget");
    line.say("connect");
    line.say("disconnect");
    line.say("connect");
    expect(forget).toHaveBeenCalledTimes(2);
    forget.mockRestore();
  });

  it("says how long ago it was seen, once three beats have gone unanswered", () => {
    line.say("connect");
    expect(connection.words.value).toBe("joining the shop …");
    line.say("snapshot", snapshot(1, []));
    expect(connection.words.value).toBe("live");
    pass(BEAT_MS * 3);
    expect(connection.state.value).toBe("live");
    pass(2000);
    expect([connection.state.value, connection.words.value]).toEqual(["stale", "link down, seen 14 s ago"]);
  });

  it("says so sooner when the line itself is known to be down", () => {
    line.say("connect");
    line.say("snapshot", snapshot(1, []));
    line.say("disconnect");
    pass(3000);
    expect(connection.words.value).toBe("link down, seen 3 s ago");
    line.say("connect");
    line.say("change", change(1, 2));
    expect(connection.words.value).toBe("live");
  });
});
