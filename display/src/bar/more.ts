/** Which rows stand whole on the screen; those that do not are counted instead of being cut through. */
import type { RefObject } from "preact";
import { useEffect, useLayoutEffect, useState } from "preact/hooks";

/** Rows that do not fit, by drink id, and from where down (px in the scroller) they are covered. */
export interface Below {
  readonly drinks: readonly string[];
  readonly from: number;
}

const NONE: Below = { drinks: [], from: 0 };

/** Which of these rows are cut by the lower edge. Pure: `rows` and `view` in the same px. */
export function cutRows(
  rows: readonly { readonly drink: string; readonly top: number; readonly bottom: number }[],
  viewTop: number,
  viewBottom: number,
  cover: number,
): Below {
  const last = rows[rows.length - 1];
  if (!last || last.bottom <= viewBottom + 1) return NONE;
  const limit = viewBottom - cover;
  const below = rows.filter((row) => row.bottom > limit + 1);
  const first = below[0];
  return first ? { drinks: below.map((row) => row.drink), from: Math.max(0, first.top - viewTop) } : NONE;
}

/** Follows the scroller's rows; measured again whenever they, the screen or the scroll change. */
export function useBelow(scroller: RefObject<HTMLElement | null>, changed: unknown): Below {
  const [below, setBelow] = useState<Below>(NONE);
  const measure = (): void => {
    const box = scroller.current;
    if (!box) return;
    const view = box.getBoundingClientRect();
    const cover = Number.parseFloat(getComputedStyle(box).scrollPaddingBottom) || 0;
    const rows = [...box.querySelectorAll<HTMLElement>("[data-drink]")].map((row) => {
      const place = row.getBoundingClientRect();
      return { drink: row.dataset["drink"] ?? "", top: place.top, bottom: place.bottom };
    });
    const next = cutRows(rows, view.top, view.bottom, cover);
    setBelow((now) => (now.from === next.from && now.drinks.join() === next.drinks.join() ? now : next));
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
