import { describe, expect, it } from "vitest";
import { folded } from "../src/floor/cups/alike";
import { applyChange, fromSnapshot, openRows, type Queue, rows } from "../src/link/queue";
import type { Build, Change, QueueDrink, Ticket } from "../src/wire.gen";
import { build, change, drink, seeded, snapshot, ticket } from "./make";

const applied = (queue: Queue, one: Change): Queue => {
  const result = applyChange(queue, one);
  if (result.gap) throw new Error(`a gap at ${queue.position}, change after ${one.after}`);
  return result.queue;
};

describe("a change", () => {
  const queue = fromSnapshot(snapshot(5, [ticket(1), ticket(2)]));

  it("replaces the tickets it names, drops those gone and keeps the order of ringing in", () => {
    const after = applied(
      queue,
      change(5, 8, { tickets: [ticket(3), ticket(1, { name: "Ana" })], gone: ["2"] }),
    );
    expect(after.tickets.map((one) => [one.id, one.name])).toEqual([
      ["1", "Ana"],
      ["3", ""],
    ]);
    expect(after.position).toBe(8);
  });

  it("tells of tickets that were voided, not of those handed off", () => {
    const after = applied(queue, change(5, 6, { gone: ["1", "2"], struck: ["2"] }));
    expect(after.tickets).toEqual([]);
    expect(after.struck.map((one) => one.id)).toEqual(["2"]);
    expect(fromSnapshot(snapshot(7, [])).struck).toEqual([]);
  });

  it("that starts past our position is a gap", () => {
    expect(applyChange(queue, change(6, 7))).toEqual({ gap: true });
  });

  it("that starts before our position and ends after it is a gap too, not a guess", () => {
    expect(applyChange(queue, change(3, 7))).toEqual({ gap: true });
  });

  it("that we already hold changes nothing", () => {
    const result = applyChange(queue, change(2, 5, { gone: ["1"] }));
    expect(result).toEqual({ gap: false, queue });
  });

  it("leaves sold out and book alone when it does not name them", () => {
    const sold = applied(queue, change(5, 6, { sold_out: ["oat"], book: "b2" }));
    const after = applied(sold, change(6, 7));
    expect([after.soldOut, after.book]).toEqual([["oat"], "b2"]);
  });

  it("tells of the hand-offs that can be taken back, and brings one back with its build", () => {
    const handed = { id: "2", number: 2, name: "", drinks: 1, handed_off_at: 9 };
    const gone = applied(queue, change(5, 6, { gone: ["1", "2"], handed: [handed] }));
    expect(gone.handed).toEqual([handed]);
    expect(Object.keys(gone.builds)).toEqual([]);
    const back = applied(
      applied(gone, change(6, 7)),
      change(7, 8, { tickets: [ticket(2, { state: "ready" })], builds: { a: build("a") }, handed: [] }),
    );
    expect(rows(back).map((row) => row.drink.id)).toEqual(["2.1"]);
    expect(back.handed).toEqual([]);
  });

  it("lets go of builds that no ticket needs any more", () => {
    const other = applied(
      queue,
      change(5, 6, {
        tickets: [ticket(3, { drinks: [drink("3.1", { build: "b" })] })],
        builds: { b: build("b") },
      }),
    );
    expect(Object.keys(other.builds).sort()).toEqual(["a", "b"]);
    expect(Object.keys(applied(other, change(6, 7, { gone: ["3"] })).builds)).toEqual(["a"]);
  });
});

describe("a cup that becomes something else under the hands", () => {
  const known = [build("a"), { ...build("b"), words: ["half sugar"] }];
  const held = fromSnapshot(
    snapshot(5, [ticket(1, { name: "Ana", drinks: [drink("1.1"), drink("1.2")] })], known),
  );
  const told = (drinks: QueueDrink[], builds = { b: known[1] as Build }) =>
    applied(held, change(5, 6, { tickets: [ticket(1, { name: "Ana", drinks })], builds })).altered;

  it("is told with what it was and is", () => {
    const one = drink("1.1", { build: "b", note: "no lid", changed_at: 9 });
    expect(told([one, drink("1.2")])).toEqual([
      {
        key: "1.1 6",
        number: 1,
        name: "Ana",
        was: "Drink a",
        now: "Drink b, half sugar, “no lid”",
        again: "",
      },
    ]);
  });

  it("is told with the reason where it is made again, and struck where it is void", () => {
    const again = drink("1.1", { remade_at: 9, remade_why: "spilled" });
    const gone = drink("1.2", { state: "void" });
    expect(told([again, gone]).map(({ was, now, again: why }) => [was, now, why])).toEqual([
      ["Drink a", "Drink a", "spilled"],
      ["Drink a", null, ""],
    ]);
  });

  it("is not told of again with what happens to it later, nor is work at it", () => {
    const one = drink("1.1", { build: "b", changed_at: 9 });
    const first = applied(held, change(5, 6, { tickets: [ticket(1, { drinks: [one, drink("1.2")] })] }));
    const made = { ...one, state: "made" as const };
    const later = applied(first, change(6, 7, { tickets: [ticket(1, { drinks: [made, drink("1.2")] })] }));
    expect([first.altered.length, later.altered]).toEqual([1, first.altered]);
    expect(told([drink("1.1", { state: "making" }), drink("1.2")])).toEqual([]);
  });

  it("reads as a row of its own beside cups that were rung in like it", () => {
    const cups = [drink("1.1"), drink("1.2", { changed_at: 9 }), drink("1.3")];
    const rowsOf = rows(fromSnapshot(snapshot(1, [ticket(1, { drinks: cups })])));
    expect(folded(rowsOf, new Set()).map((row) => row.cups.length)).toEqual([2, 1]);
  });
});

/** A made-up history: one change a position, over tickets that come, change and go. */
function history(random: () => number, length: number): Change[] {
  const open = new Map<number, Ticket>();
  let last = 0;
  return Array.from({ length }, (_, index) => {
    const ids = [...open.keys()];
    const any = ids[Math.floor(random() * ids.length)];
    const roll = random();
    if (any === undefined || roll < 0.45) {
      last += 1;
      const fresh = ticket(last, { drinks: [drink(`${last}.1`, { build: `b${last % 7}` })] });
      open.set(last, fresh);
      return change(index, index + 1, {
        tickets: [fresh],
        builds: { [`b${last % 7}`]: build(`b${last % 7}`) },
      });
    }
    if (roll < 0.7) {
      open.delete(any);
      return change(index, index + 1, { gone: [String(any)] });
    }
    if (roll < 0.8) return change(index, index + 1, { sold_out: [`item ${index}`] });
    const moved = { ...(open.get(any) as Ticket), name: `at ${index}` };
    open.set(any, moved);
    return change(index, index + 1, { tickets: [moved] });
  });
}

/** Several changes as the service sends them on joining again: one, from the first to the last. */
function merged(changes: readonly Change[]): Change {
  const tickets = new Map<string, Ticket>();
  const gone = new Set<string>();
  let soldOut: string[] | null = null;
  for (const one of changes) {
    for (const each of one.tickets) {
      tickets.set(each.id, each);
      gone.delete(each.id);
    }
    for (const id of one.gone) {
      tickets.delete(id);
      gone.add(id);
    }
    soldOut = one.sold_out ?? soldOut;
  }
  return change(changes[0]?.after ?? 0, changes[changes.length - 1]?.position ?? 0, {
    tickets: [...tickets.values()],
    gone: [...gone],
    builds: Object.assign({}, ...changes.map((one) => one.builds)),
    sold_out: soldOut,
  });
}

describe("a queue in pieces", () => {
  it.each(Array.from({ length: 40 }, (_, seed) => seed))(
    "equals the whole, with losses and resends (seed %i)",
    (seed) => {
      const random = seeded(seed);
      const changes = history(random, 60);
      const start = fromSnapshot(snapshot(0, [], []));
      const whole = changes.reduce(applied, start);
      let queue = start;
      let gaps = 0;
      let next = 0;
      while (queue.position < changes.length) {
        // A message may be lost, come again, or come after others were lost.
        const roll = random();
        if (roll < 0.2) next += 1;
        if (roll > 0.9) next = Math.max(0, next - 3);
        const one = changes[Math.min(next, changes.length - 1)] as Change;
        next += 1;
        const result = applyChange(queue, one);
        if (result.gap) {
          gaps += 1;
          const until = Math.min(changes.length, Math.max(queue.position + 1, one.position));
          queue = applied(queue, merged(changes.slice(queue.position, until)));
        } else {
          queue = result.queue;
        }
      }
      expect(queue).toEqual(whole);
      expect(gaps).toBeGreaterThan(0);
    },
  );
});

describe("rows", () => {
  const queue = fromSnapshot(
    snapshot(9, [
      ticket(2, { drinks: [drink("2.1"), drink("2.2", { state: "made", bumped_at: 10 })] }),
      ticket(1, { drinks: [drink("1.1", { state: "void" }), drink("1.2", { state: "making" })] }),
      ticket(3, { state: "ready", drinks: [drink("3.1", { state: "made", bumped_at: 20 })] }),
      ticket(4, { drinks: [drink("4.1", { build: "not sent" })] }),
    ]),
  );

  it("stand in queue order, and only where the build is known", () => {
    expect(rows(queue).map((row) => row.drink.id)).toEqual(["1.1", "1.2", "2.1", "2.2", "3.1"]);
  });

  it("open to the bar leave out made drinks and keep void ones, struck", () => {
    expect(openRows(queue).map((row) => row.drink.id)).toEqual(["1.1", "1.2", "2.1"]);
  });
});
