/** Where focus goes once the page shows what an edit has changed: what had it may have moved, or be gone. */
import { useLayoutEffect } from "preact/hooks";

let wanted: string | undefined;

/** After the next rendering focus is on the first of what `selector` finds. */
export function focusNext(selector: string): void {
  wanted = selector;
}

function carryOut(): void {
  if (wanted === undefined) return;
  const found = document.querySelector<HTMLElement>(wanted);
  if (!found) return;
  wanted = undefined;
  found.focus();
  found.scrollIntoView({ block: "nearest" });
}

/**
 * Carries out what was wished for last, once all is drawn: a panel that closes gives focus back to its opener first.
 * For the one component that renders on each edit.
 */
export function useWantedFocus(): void {
  useLayoutEffect(() => {
    if (wanted === undefined) return undefined;
    const next = requestAnimationFrame(carryOut);
    return () => cancelAnimationFrame(next);
  });
}
