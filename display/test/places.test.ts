import { describe, expect, it } from "vitest";
import { type Edits, isRemoved, NO_EDITS, setKey, type Values } from "../src/owner/book/edits";
import {
  isIn,
  itemsOf,
  keyOfItem,
  type List,
  moveItem,
  pathNow,
  putItem,
  toggleItem,
} from "../src/owner/book/places";
import { toSend } from "../src/owner/book/sending";
import type { Edit } from "../src/wire.gen";

const FILE = "drinks/oolong.toml";
const list = (count: number): List => ({ file: FILE, path: ["steps"], count });

type Row = Record<string, unknown>;

/** What the service does with edits of a list, in a few lines: each edit after those before it. */
function applied(rows: readonly Row[], edits: readonly Edit[]): Row[] {
  let now = rows.map((row) => ({ ...row }));
  for (const { path, value } of edits) {
    if (path.length === 1 && Array.isArray(value)) {
      now = value.map((one) => (typeof one === "number" ? { ...now[one] } : { ...(one as Row) }));
    } else {
      const [, place, key] = path;
      const row = now[Number(place)];
      if (!row) throw new Error(`no step ${String(place)}`);
      if (value === null) delete row[String(key)];
      else row[String(key)] = value;
    }
  }
  return now;
}

/** A small generator of chance (mulberry32), so that a failing life can be played again by its seed. */
function chance(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) % below;
  };
}

/** The members that are in, by their names in paths. */
const keys = (edits: Edits, of: List): (number | string)[] =>
  itemsOf(edits, of.file, of.path, of.count).filter(isIn).map(keyOfItem);

describe("steps that are moved, put in, taken out and edited", () => {
  it("come out as in a plain list to which the same was done", () => {
    for (let seed = 1; seed <= 400; seed += 1) {
      const pick = chance(seed);
      const count = pick(6);
      const of = list(count);
      const read: Row[] = Array.from({ length: count }, (_, place) => ({ name: `read ${place}` }));
      let edits: Edits = NO_EDITS;
      const model: Row[] = read.map((row) => ({ ...row }));
      for (let turn = 0; turn < 12; turn += 1) {
        const here = keys(edits, of);
        const place = here.length > 0 ? pick(here.length) : 0;
        const key = here[place];
        const what = pick(4);
        if (what === 0 && key !== undefined) {
          const by = pick(2) === 0 ? -1 : 1;
          edits = moveItem(edits, of, key, by);
          const to = place + by;
          if (to >= 0 && to < model.length) model.splice(to, 0, ...model.splice(place, 1));
        } else if (what === 1) {
          const values: Values = { name: `put in ${turn}` };
          edits = putItem(edits, of, key ?? null, values).edits;
          model.splice(key === undefined ? 0 : place + 1, 0, { ...values });
        } else if (what === 2 && key !== undefined) {
          edits = toggleItem(edits, of, key);
          model.splice(place, 1);
        } else if (key !== undefined) {
          edits = setKey(edits, FILE, ["steps", key, "amount"], `${turn} ml`);
          Object.assign(model[place] ?? {}, { amount: `${turn} ml` });
        }
      }
      expect(applied(read, toSend(edits)), `seed ${seed}`).toEqual(model);
    }
  });

  it("keep the edit of a step that is moved, and tell where it stands now", () => {
    let edits = setKey(NO_EDITS, FILE, ["steps", 2, "amount"], "30 ml", "20 ml");
    edits = moveItem(edits, list(3), 2, -1);
    edits = moveItem(edits, list(3), 2, -1);
    expect(pathNow(edits, FILE, ["steps", 2, "amount"])).toEqual(["steps", 0, "amount"]);
    expect(pathNow(edits, FILE, ["steps", 0])).toEqual(["steps", 1]);
    expect(pathNow(edits, FILE, ["prices", "small"])).toEqual(["prices", "small"]);
    expect(toSend(edits)).toEqual([
      { file: FILE, path: ["steps"], value: [2, 0, 1] },
      { file: FILE, path: ["steps", 0, "amount"], value: "30 ml" },
    ]);
  });

  it("are no edit when they are moved back, nor at the ends of the list", () => {
    const moved = moveItem(NO_EDITS, list(3), 0, 1);
    expect(moveItem(moved, list(3), 0, -1)).toEqual(NO_EDITS);
    expect(moveItem(NO_EDITS, list(3), 0, -1)).toEqual(NO_EDITS);
    expect(moveItem(NO_EDITS, list(3), 2, 1)).toEqual(NO_EDITS);
  });

  it("come back to their seat, with their edits, when they are left in after all", () => {
    const edited = setKey(NO_EDITS, FILE, ["steps", 1, "amount"], "30 ml", "20 ml");
    const out = toggleItem(edited, list(3), 1);
    expect(toSend(out)).toEqual([{ file: FILE, path: ["steps"], value: [0, 2] }]);
    expect(pathNow(out, FILE, ["steps", 1, "amount"])).toBeUndefined();
    expect(toggleItem(out, list(3), 1)).toEqual(edited);
  });

  it("move past one that is taken out", () => {
    const out = toggleItem(NO_EDITS, list(3), 1);
    const moved = moveItem(out, list(3), 2, -1);
    expect(toSend(moved)[0]?.value).toEqual([2, 0]);
  });

  it("let all go that was changed in one that was put in", () => {
    const put = putItem(NO_EDITS, list(2), 0, { do: "stir" });
    const edited = setKey(put.edits, FILE, ["steps", put.fresh, "time"], "5 s", null);
    expect(toSend(edited)).toEqual([
      { file: FILE, path: ["steps"], value: [0, { do: "stir" }, 1] },
      { file: FILE, path: ["steps", 1, "time"], value: "5 s" },
    ]);
    expect(toggleItem(edited, list(2), put.fresh)).toEqual(NO_EDITS);
    expect(isRemoved(edited, FILE, ["steps"])).toBe(false);
  });
});
