/** Which rows stand whole on the screen; those that do not are counted instead of being cut through. */
import type { RefObject } from "preact";
import { useEffect, useLayoutEffect, useState } from "preact/hooks";

/** Rows that do not fit, by drink id; from where down (px in the scroller) they are covered; lines of text that take. */
export interface Below {
  readonly drinks: readonly string[];
  readonly from: number;
  /** Lines left for naming the next drinks, after the one that counts them. */
  readonly lines: number;
}

/** Where a row stands on the screen, in px. */
export interface Standing {
  readonly drink: string;
  readonly top: number;
  readonly bottom: number;
}

const NONE: Below = { drinks: [], from: 0, lines: 0 };

/**
 * Which rows are cut by the lower edge, given that saying so takes `line` px a line. The first row in view is never cut: one that
 * is taller than the screen is still better seen in part. Pure.
 */
export function cutRows(rows: readonly Standing[], viewTop: number, viewBottom: number, line: number): Below {
  const inView = rows.filter((row) => row.bottom > viewTop + 1);
  const lowest = Math.max(...inView.map((row) => row.bottom));
  if (inView.length < 2 || lowest <= viewBottom + 1) return NONE;
  const limit = viewBottom - line;
  const cut = inView.findIndex((row, index) => index > 0 && row.bottom > limit + 1);
  const first = inView[cut];
  if (!first) return NONE;
  return {
    drinks: inView.slice(cut).map((row) => row.drink),
    from: Math.max(0, first.top - viewTop),
    lines: Math.max(0, Math.floor((viewBottom - first.top) / line) - 1),
  };
}

/** Where each row of the scroller stands. The bracket of a ticket must be seen whole with its first row. */
function standings(box: HTMLElement): Standing[] {
  return [...box.querySelectorAll<HTMLElement>("[data-drink]")].map((row) => {
    const place = row.getBoundingClientRect();
    const bracket = row.querySelector(".bracket-inner")?.getBoundingClientRect().bottom ?? place.bottom;
    return { drink: row.dataset["drink"] ?? "", top: place.top, bottom: Math.max(place.bottom, bracket) };
  });
}

/** Brings a row into view so that no row is cut at the top; where the page itself scrolls, the browser does it. */
export function reveal(box: HTMLElement, row: Element): void {
  if (box.scrollHeight <= box.clientHeight) {
    row.scrollIntoView({ block: "nearest" });
    return;
  }
  const view = box.getBoundingClientRect();
  const top = view.top + (box.querySelector("thead")?.getBoundingClientRect().height ?? 0);
  const room = view.bottom - top - (Number.parseFloat(getComputedStyle(box).scrollPaddingBottom) || 0);
  const wanted = row.getBoundingClientRect();
  if (wanted.top >= top && wanted.bottom <= top + room) return;
  const rows = [...box.querySelectorAll("[data-drink]")].map((one) => one.getBoundingClientRect());
  const first =
    wanted.top < top
      ? wanted
      : (rows.find((one) => one.top >= top && wanted.bottom - one.top <= room) ?? wanted);
  box.scrollTop += first.top - top;
}

/** Follows the scroller's rows; measured again whenever they, the screen or the scroll change. */
export function useBelow(scroller: RefObject<HTMLElement | null>, changed: unknown): Below {
  const [below, setBelow] = useState<Below>(NONE);
  const measure = (): void => {
    const box = scroller.current;
    if (!box) return;
    const view = box.getBoundingClientRect();
    const line = Number.parseFloat(getComputedStyle(box).scrollPaddingBottom) || 1;
    const head = box.querySelector("thead")?.getBoundingClientRect().height ?? 0;
    const cut = cutRows(standings(box), view.top + head, view.bottom, line);
    const next = { ...cut, from: cut.from + head };
    setBelow((now) => (JSON.stringify(now) === JSON.stringify(next) ? now : next));
  };
  useLayoutEffect(measure, [changed]);
  const there = scroller.current !== null;
  useEffect(() => {
    const box = scroller.current;
    if (!box) return undefined;
    const watcher = new ResizeObserver(measure);
    watcher.observe(box);
    if (box.firstElementChild) watcher.observe(box.firstElementChild);
    box.addEventListener("scroll", measure, { passive: true });
    return () => {
      watcher.disconnect();
      box.removeEventListener("scroll", measure);
    };
  }, [there]);
  return below;
}
