import { describe, expect, it } from "vitest";
import { extraPrice, moneyWriter } from "../src/words/money";
import {
  ago,
  callName,
  counted,
  dayWords,
  figure,
  inSentence,
  listed,
  longestPart,
  minutes,
  numberWord,
  range,
  seconds,
  timeOfDay,
} from "../src/words/words";

describe("words", () => {
  it.each([
    [0, "0"],
    [0.5, "½"],
    [1, "1"],
    [1.5, "1½"],
    [2.25, "2¼"],
    [7, "7"],
    [100, "100"],
    [2.4, "2.4"],
    [1 / 3, "⅓"],
    [1 + 2 / 3, "1⅔"],
  ])("a count of %d is %s", (count, said) => expect(figure(count)).toBe(said));

  it.each([
    ["Ana", "Ana"],
    ["  Maria do Carmo ", "Maria do Carmo"],
    ["Maximiliane van der Hoogenband", "Maximiliane H."],
    ["Konstantinopoulou", "Konstantinopoulou"],
    ["", ""],
  ])("%j is called as %j", (name, called) => expect(callName(name)).toBe(called));

  it("finds the longest part that a line cannot break", () => {
    expect(["Wilhelmina-Josefine", "João da Silva", ""].map(longestPart)).toEqual([11, 5, 0]);
  });

  it("lists as people do", () => {
    expect([listed([]), listed(["a"]), listed(["a", "b"]), listed(["a", "b", "c"])]).toEqual([
      "",
      "a",
      "a and b",
      "a, b and c",
    ]);
  });

  it("tells seconds, minutes and hours apart", () => {
    expect([seconds(45), seconds(99.6), seconds(125), minutes(7), minutes(760), minutes(3723)]).toEqual([
      "45 s",
      "1:40",
      "2:05",
      "0:07",
      "12:40",
      "1:02:03",
    ]);
  });

  it("tells ranges with one unit", () => {
    expect([range(30, 60), range(25, 25), range(120, 180)]).toEqual(["30–60 s", "25 s", "2:00–3:00"]);
  });

  it("tells how long ago", () => {
    expect([ago(14), ago(180), ago(7200)]).toEqual(["14 s ago", "3 min ago", "2 h ago"]);
  });

  it("knows small numbers as words, and one from many", () => {
    expect([numberWord(1), numberWord(12), counted(1, "drink"), counted(5, "more drink")]).toEqual([
      "one",
      "12",
      "1 drink",
      "5 more drinks",
    ]);
  });

  it("puts a name into a sentence, but leaves capitals alone", () => {
    expect([inSentence("Large"), inSentence("XL"), inSentence("less ice")]).toEqual([
      "large",
      "XL",
      "less ice",
    ]);
  });

  it("tells the time of day where the shop is", () => {
    // In July Lisbon keeps UTC+1 (IANA tz database).
    expect(timeOfDay(Date.UTC(2026, 6, 1, 12, 5), "Europe/Lisbon")).toBe("13:05");
  });

  it("names a day", () => {
    // 25 November 2026 is a Wednesday: ISO 8601 week date 2026-W48-3.
    expect(dayWords("2026-11-25")).toContain("Wednesday");
  });
});

describe("money", () => {
  const euro = moneyWriter("EUR", 2);
  it("writes minor units with as many digits as the currency has (ISO 4217: EUR 2, JPY 0)", () => {
    expect([euro(495), euro(0), euro(120_000)]).toEqual(["€4.95", "€0.00", "€1,200.00"]);
    expect(moneyWriter("JPY", 0)(500)).toMatch(/500$/);
    expect(moneyWriter("VND", 0)(35_000)).toMatch(/35,000$/);
    expect(moneyWriter("KWD", 3)(1_750)).toMatch(/1\.750$/);
    expect(moneyWriter("CLF", 4)(1_234)).toMatch(/0\.1234$/);
  });

  it("goes by the book's digits where others show none, as of rupiah and rials (ISO 4217: 2)", () => {
    expect(moneyWriter("IDR", 2)(2_800_000)).toMatch(/28,000\.00$/);
    expect(moneyWriter("IRR", 2)(150_000_000)).toMatch(/1,500,000\.00$/);
  });

  it("writes a difference with its sign, and none as nothing", () => {
    expect([extraPrice(euro, 50), extraPrice(euro, -20), extraPrice(euro, 0)]).toEqual([
      "+€0.50",
      "−€0.20",
      "",
    ]);
  });
});
