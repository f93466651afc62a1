import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { contrast } from "./wcag";

/** The colours of a block of tokens.css, with var() looked up in :root. */
function tokens(block: string): Record<string, string> {
  const css = readFileSync(new URL("../src/styles/tokens.css", import.meta.url), "utf8");
  const read = (name: string): Record<string, string> => {
    const body = css.match(new RegExp(`(?:^|\\n)${name.replace(".", "\\.")} \\{([^}]*)\\}`))?.[1] ?? "";
    return Object.fromEntries(
      [...body.matchAll(/--([\w-]+): ([^;]+);/g)].map((match) => [match[1], match[2]]),
    );
  };
  const root = read(":root");
  const found = { ...root, ...read(block) };
  const resolved: Record<string, string> = {};
  for (const [name, value] of Object.entries(found)) {
    const hex = value?.startsWith("var(--") ? root[value.slice(6, -1)] : value;
    if (hex?.startsWith("#")) resolved[name] = hex;
  }
  return resolved;
}

const of = (colours: Record<string, string>, one: string, other: string): number => {
  const [first, second] = [colours[one], colours[other]];
  if (!first || !second) throw new Error(`no colour ${first ? other : one} in tokens.css`);
  return contrast(first, second);
};

describe("the formula", () => {
  // Published pairs that are quoted for WCAG 2: grey 767676 just passes AA on white, 777777 just fails.
  it.each([
    ["#767676", "#ffffff", 4.54],
    ["#777777", "#ffffff", 4.48],
    ["#595959", "#ffffff", 7.0],
    ["#949494", "#ffffff", 3.03],
    ["#ffffff", "#121212", 18.73],
    ["#ff0000", "#ffffff", 4.0],
    ["#008000", "#ffffff", 5.14],
  ])("gives %s on %s as %d", (one, other, ratio) => expect(contrast(one, other)).toBeCloseTo(ratio, 2));
});

describe("paper, read close by", () => {
  const paper = tokens(".paper");
  it.each([
    ["ink", "ground", 7],
    ["ink", "raised", 7],
    ["ink", "sunk", 7],
    ["faint", "ground", 4.5],
    ["faint", "raised", 4.5],
    ["faint", "sunk", 4.5],
    ["wrong-text", "ground", 4.5],
    ["black", "late", 4.5],
    ["black", "soon", 4.5],
  ])("has %s on %s at %d to 1 or more (WCAG 1.4.3, 1.4.6)", (text, ground, least) => {
    expect(of(paper, text, ground)).toBeGreaterThanOrEqual(least);
  });

  it.each([
    ["strong-rule", "ground"],
    ["strong-rule", "raised"],
    ["fine", "ground"],
    ["late", "ground"],
    ["focus", "ground"],
  ])("has the control colour %s on %s at 3 to 1 or more (WCAG 1.4.11)", (control, ground) => {
    expect(of(paper, control, ground)).toBeGreaterThanOrEqual(3);
  });
});

describe("ink, on the wall", () => {
  const ink = tokens(".ink");
  it.each([
    ["ink", "ground"],
    ["ink", "raised"],
    ["ink", "sunk"],
    ["ink", "drain"],
    ["faint", "ground"],
    ["faint", "raised"],
    ["faint", "sunk"],
    ["black", "soon"],
    ["black", "sky"],
    ["yellow", "ground"],
  ])("has %s on %s at AAA, 7 to 1 (WCAG 1.4.6)", (text, ground) => {
    expect(of(ink, text, ground)).toBeGreaterThanOrEqual(7);
  });

  it("has large text on late, and in a running cell, at AAA for large text, 4.5 to 1", () => {
    expect(of(ink, "black", "late")).toBeGreaterThanOrEqual(4.5);
    expect(of(ink, "faint", "drain")).toBeGreaterThanOrEqual(4.5);
  });

  it.each([
    ["strong-rule", "ground"],
    ["sky", "drain"],
    ["late", "ground"],
    ["focus", "ground"],
  ])("has %s beside %s at 3 to 1 (WCAG 1.4.11)", (control, ground) => {
    expect(of(ink, control, ground)).toBeGreaterThanOrEqual(3);
  });
});

describe("the colours of meaning", () => {
  it("are Okabe and Ito's (Color Universal Design, 2002, revised 2008)", () => {
    const root = tokens(":root");
    expect([root["fine-blue"], root["sky"], root["yellow"], root["vermilion"]]).toEqual([
      "#0072b2",
      "#56b4e9",
      "#f0e442",
      "#d55e00",
    ]);
  });
});
