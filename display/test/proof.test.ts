import { describe, expect, it } from "vitest";
import { share } from "../src/owner/proof/prooffigures";
import { meaningWords, progressWords } from "../src/owner/proof/proofwatch";
import { drinksNamed } from "../src/owner/proof/reasons";
import { proofWords } from "../src/owner/versions";
import type { BookVersion, Proof } from "../src/wire.gen";

const PROOF: Proof = {
  version: "v1",
  state: "running",
  done: 1200,
  total: 4000,
  seconds: 3,
  tolerance_pct: 10,
  combinations: 1000,
  built: 900,
  refused: 100,
  flagged: 0,
  violated: 0,
  mean_pct: 1,
  worst_pct: 2,
  hand: {
    built: 900,
    fussy: 9,
    seconds: 30,
    fuss: [],
    parts: [],
    median_pct: 0,
    p95_pct: 0,
    sweetest: null,
  },
  columns: [],
  drinks: [],
  reasons: [],
  advice: [],
};

describe("a proof in words", () => {
  it("tells what is fussy as a share of what is built", () => {
    expect(share(PROOF.hand)).toBe(1);
    expect(share({ ...PROOF.hand, built: 0, fussy: 0 })).toBe(0);
  });

  it("says how far it has come, and that it goes on from there", () => {
    expect(progressWords(PROOF)).toBe("Proving: 1,200 of 4,000 combinations, 30 %.");
    expect(progressWords({ ...PROOF, state: "stopped" })).toContain("it goes on from there");
    expect(meaningWords(PROOF, false)).toContain("goes on from there");
  });

  it("says what a failed proof means for the register, before and after the owner's word", () => {
    const fails: Proof = { ...PROOF, state: "fails", violated: 12, combinations: 4000 };
    expect(progressWords(fails)).toBe("The proof fails: 12 breaches among 4,000 combinations.");
    expect(meaningWords(fails, false)).toContain("goes on with the one before");
    expect(meaningWords(fails, true)).toContain("refuses each combination that fails");
  });

  it("names the drinks that a refusal meets most, and counts the rest", () => {
    const drinks = ["A", "B", "C", "D", "E", "F"].map((name, place) => ({ name, count: 6000 - place }));
    expect(drinksNamed(drinks)).toBe("A 6,000, B 5,999, C 5,998, D 5,997 and 2 more");
    expect(drinksNamed(drinks.slice(0, 1))).toBe("A 6,000");
  });
});

describe("the proof of a version in the list", () => {
  const version: BookVersion = {
    version: "v1",
    note: "",
    at: 0,
    by: "bench",
    state: "proving",
    holds: null,
    anyway: false,
    kept: true,
    changed: [],
  };

  it("is told as it comes", () => {
    expect(proofWords(version, undefined)).toBe("not proved");
    expect(proofWords(version, PROOF)).toBe("being proved, 30 %");
    expect(proofWords(version, { ...PROOF, version: "other" })).toBe("not proved");
    expect(proofWords(version, { ...PROOF, state: "stopped" })).toBe("stopped at 30 %");
    expect(proofWords({ ...version, holds: true }, PROOF)).toBe("holds");
  });

  it("says that the owner opened what fails", () => {
    expect(proofWords({ ...version, holds: false }, undefined)).toBe("fails");
    expect(proofWords({ ...version, holds: false, anyway: true }, undefined)).toContain("owner’s word");
  });
});
