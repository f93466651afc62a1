import { describe, expect, it } from "vitest";
import { NO_EDITS, setKey } from "../src/owner/book/edits";
import { freeId } from "../src/owner/book/ids";
import { minorOf, percentOf, priceChanges, raiseAll, raised, writtenPrice } from "../src/owner/book/prices";
import type { Sheet } from "../src/owner/book/sheets";
import { field } from "./makebench";

const sheet = (file: string, title: string, prices: Record<string, string | null>): Sheet => ({
  file,
  path: ["prices"],
  title,
  help: "",
  shape: undefined,
  written: true,
  fresh: false,
  out: false,
  inner: [],
  fields: Object.entries(prices).map(([key, value]) => ({
    ...field(key, { kind: "price" }),
    path: ["prices", key],
    value,
    comment: "",
    label: key.toUpperCase(),
  })),
});

const TARO = sheet("drinks/taro.toml", "Taro Milk Tea", { small: "3.60", large: "4.95", huge: null });
const PORT = sheet("drinks/port.toml", "Port Milk Tea", { small: "0" });

describe("prices", () => {
  it("that are edited are told from what to what", () => {
    const once = setKey(NO_EDITS, TARO.file, ["prices", "small"], "3.80", "3.60");
    const twice = setKey(once, TARO.file, ["prices", "huge"], "5.50", null);
    expect(priceChanges(twice, [TARO, PORT])).toEqual([
      { name: "Taro Milk Tea, SMALL", from: "3.60", to: "3.80" },
      { name: "Taro Milk Tea, HUGE", from: "", to: "5.50" },
    ]);
    expect(priceChanges(NO_EDITS, [TARO])).toEqual([]);
  });

  it("are read and written as the files have them, whatever the currency's smallest coin", () => {
    expect(["4.6", "4,60", "4", "4.605", "abc", ""].map((text) => minorOf(text, 2))).toEqual([
      460,
      460,
      400,
      undefined,
      undefined,
      undefined,
    ]);
    expect([minorOf("480", 0), minorOf("4.5", 0), minorOf("1.250", 3)]).toEqual([480, undefined, 1250]);
    expect([writtenPrice(460, 2), writtenPrice(5, 2), writtenPrice(480, 0), writtenPrice(1250, 3)]).toEqual([
      "4.60",
      "0.05",
      "480",
      "1.250",
    ]);
  });

  it("are raised to the nearest multiple, a half upwards", () => {
    // 3.60 and 5 % are 3.78, to 0.10 3.80, to 0.05 3.80, to 0.01 3.78. 5.00 and 1 % are 5.05: half of 0.10, up.
    expect([raised(360, 5, 10), raised(360, 5, 5), raised(360, 5, 1)]).toEqual([380, 380, 378]);
    expect(raised(500, 1, 10)).toBe(510);
    // 4.95 less 10 % is 4.455: to 0.05 4.45 (0.005 away) and not 4.50.
    expect(raised(495, -10, 5)).toBe(445);
  });

  it("are raised all at once, but for what has no price", () => {
    const by = { percent: 5, step: 10, digits: 2 };
    // 4.95 and 5 % are 5.1975, to 0.10 5.20.
    expect(raiseAll(NO_EDITS, [TARO, PORT], by).changes).toEqual([
      { file: TARO.file, path: ["prices", "small"], value: "3.80" },
      { file: TARO.file, path: ["prices", "large"], value: "5.20" },
    ]);
  });

  it("take per cents as a hand types them", () => {
    expect(["5", "+5", "2,5", "−10", "-10"].map(percentOf)).toEqual([5, 5, 2.5, -10, -10]);
    expect(["", "0", "51", "5.25", "five", "5 %"].map(percentOf)).toEqual(Array(6).fill(undefined));
  });
});

describe("an id made of a name", () => {
  const taken = (id: string): boolean => ["taro", "taro_2", "drink"].includes(id);
  it("is one that no other has, and there is one for every name", () => {
    expect(freeId("Mango", "drink", taken)).toBe("mango");
    expect(freeId("Taro", "drink", taken)).toBe("taro_3");
    expect(freeId("凍茶", "drink", taken)).toBe("drink_2");
    expect(freeId("  ", "drink", taken)).toBe("");
    const long = "a".repeat(60);
    expect(freeId(long, "drink", (id) => id === "a".repeat(40))).toBe(`${"a".repeat(38)}_2`);
  });
});
