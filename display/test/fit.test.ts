import { describe, expect, it } from "vitest";
import {
  assumedPanel,
  CAPITAL_SHARE,
  HAND,
  heightAt,
  mmPerPixel,
  PHONE,
  sizesFor,
  WALL,
} from "../src/screen/fit";

describe("capital height", () => {
  // h = 2·d·tan(α/2); 16′ is the floor and 20′ preferred for Latin text (ISO 9241-303), values rounded to 0.1 mm.
  it.each([
    [16, 0.5, 2.3],
    [20, 0.5, 2.9],
    [16, 2, 9.3],
    [20, 2, 11.6],
    [22, 3, 19.2],
  ])("of %d minutes of arc at %d m is %d mm", (minutes, metres, height) => {
    expect(heightAt(minutes, metres)).toBeCloseTo(height, 1);
  });
});

describe("a panel", () => {
  // A 16:9 panel 1920 px wide: 21.5 inch 0.248, 32 inch 0.369, 43 inch 0.496 mm a pixel, by geometry.
  it.each([
    [21.5, 0.248],
    [32, 0.369],
    [43, 0.496],
  ])("of %d inch has %d mm a pixel", (inches, mm) =>
    expect(mmPerPixel(inches, 1920, 1080)).toBeCloseTo(mm, 3),
  );

  it("on the wall gets type whose capitals subtend 20 minutes of arc, and targets of 20 mm", () => {
    const sizes = sizesFor({ inches: 32, metres: 2 }, 1920, 1080);
    const capital = sizes.text * CAPITAL_SHARE * sizes.mmPerPixel;
    expect(capital).toBeCloseTo(heightAt(20, 2), 0);
    expect(sizes.small * CAPITAL_SHARE * sizes.mmPerPixel).toBeGreaterThanOrEqual(heightAt(16, 2));
    expect(sizes.target).toBe(55);
  });

  it("is taken for a wall screen, a tablet or a phone by its width until someone says", () => {
    expect([1920, 1280, 390].map(assumedPanel)).toEqual([WALL, HAND, PHONE]);
  });
});
