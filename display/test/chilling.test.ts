import { describe, expect, it } from "vitest";
import { NOTHING_KNOWN, trialOf } from "../src/owner/measure/chilling";

const KNOWN = { ...NOTHING_KNOWN, liquid_g: "250", liquid_c: "25", ice_g: "200" };

describe("a trial of chilling", () => {
  it("holds what was weighed and read, with commas and minus signs as they are typed", () => {
    expect(trialOf(KNOWN, 0)).toEqual({ liquid_g: 250, liquid_c: 25, ice_g: 200, ice_c: 0, end_c: 0 });
    expect(trialOf({ ...KNOWN, liquid_c: "24,5", ice_c: "−18" }, 3)).toMatchObject({
      liquid_c: 24.5,
      ice_c: -18,
    });
  });

  it("names what is missing or cannot be", () => {
    expect(trialOf({ ...KNOWN, liquid_g: "" }, 0)).toContain("Liquid");
    expect(trialOf({ ...KNOWN, liquid_c: "0" }, 0)).toContain("warm");
    expect(trialOf({ ...KNOWN, ice_g: "many" }, 0)).toContain("Ice");
    expect(trialOf({ ...KNOWN, ice_c: "5" }, 0)).toContain("-40 to 0");
  });
});
