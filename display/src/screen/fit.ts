/**
 * Type that fits its distance: from the panel's diagonal and how far off it is read follow millimetres
 * per pixel and the size of type. Formulas: h = 2·d·tan(α/2) for the height that an angle subtends;
 * 20′ of arc for capitals is what ISO 9241-303 prefers for Latin text, 16′ its floor.
 */
import { signal } from "@preact/signals";

/** One screen as it hangs: diagonal of the panel in inches, reading distance in metres. */
export interface Panel {
  readonly inches: number;
  readonly metres: number;
}

/** Sizes in CSS pixels for one panel. */
export interface Sizes {
  readonly text: number;
  readonly small: number;
  readonly target: number;
  readonly mmPerPixel: number;
}

/** Over the counter: whoever works it stands a metre and a half off. */
export const WALL: Panel = { inches: 32, metres: 1.5 };
export const HAND: Panel = { inches: 11, metres: 0.5 };
export const PHONE: Panel = { inches: 6.1, metres: 0.35 };

/** Capital height over font size of Atkinson Hyperlegible Next (its OS/2 table: 668 of 1000). */
export const CAPITAL_SHARE = 0.668;
const MM_PER_INCH = 25.4;

/** Touch targets: 20 mm standing at a panel (Colle & Hiszem 2004), 10 mm under the thumb of the hand that holds it
 * (Parhi, Karlson & Bederson 2006 found 9.2 to 9.6 mm). */
const STANDING_MM = 20;
const HELD_MM = 10;
const HELD_INCHES = 9;

/** Height in mm that subtends `arcMinutes` at `metres`. */
export function heightAt(arcMinutes: number, metres: number): number {
  const angle = (arcMinutes / 60) * (Math.PI / 180);
  return 2 * metres * 1000 * Math.tan(angle / 2);
}

/** Millimetres per CSS pixel of a panel showing `width` × `height` CSS pixels. */
export function mmPerPixel(inches: number, width: number, height: number): number {
  return (inches * MM_PER_INCH) / Math.hypot(width, height);
}

/** Type and target sizes for a panel showing `width` × `height` CSS pixels. */
export function sizesFor(panel: Panel, width: number, height: number): Sizes {
  const scale = mmPerPixel(panel.inches, width, height);
  const font = (arcMinutes: number): number => heightAt(arcMinutes, panel.metres) / scale / CAPITAL_SHARE;
  return {
    text: Math.round(font(20)),
    small: Math.ceil(font(16)),
    target: Math.ceil((panel.inches < HELD_INCHES ? HELD_MM : STANDING_MM) / scale),
    mmPerPixel: scale,
  };
}

const KEY = "levelscoop.panel";

function stored(): Panel | undefined {
  try {
    const panel = JSON.parse(localStorage.getItem(KEY) ?? "null") as Panel | null;
    return panel && panel.inches > 0 && panel.metres > 0 ? panel : undefined;
  } catch {
    return undefined;
  }
}

/** The panel of this screen as set by hand, or undefined where nobody has been asked yet. */
export const setPanel = signal<Panel | undefined>(globalThis.localStorage ? stored() : undefined);

/** Keeps the panel for this screen; null goes back to the default. */
export function keepPanel(panel: Panel | null): void {
  setPanel.value = panel ?? undefined;
  if (panel) localStorage.setItem(KEY, JSON.stringify(panel));
  else localStorage.removeItem(KEY);
}

/** What to take where nobody was asked: a wall screen when it is wide, a phone when it is narrow, else a tablet. */
export function assumedPanel(width: number): Panel {
  if (width >= 1600) return WALL;
  return width < 600 ? PHONE : HAND;
}

/** Another text whenever the sizes or the width of the window are others: what was measured before holds no longer. */
export const fitted = signal("");

/** Puts the sizes of the panel in use on the page as custom properties, and keeps them right. */
export function fitPage(): void {
  const renew = () => {
    const width = window.innerWidth;
    const panel = setPanel.value ?? assumedPanel(width);
    const screenWidth = Math.max(window.screen.width, width);
    const screenHeight = Math.max(window.screen.height, window.innerHeight);
    const sizes = sizesFor(panel, screenWidth, screenHeight);
    const root = document.documentElement.style;
    root.setProperty("--fit-text", `${Math.max(16, sizes.text)}px`);
    root.setProperty("--fit-small", `${Math.max(14, sizes.small)}px`);
    root.setProperty("--fit-target", `${Math.max(44, sizes.target)}px`);
    fitted.value = [width, sizes.text, sizes.small, sizes.target].join(" ");
  };
  setPanel.subscribe(renew);
  window.addEventListener("resize", renew);
}
