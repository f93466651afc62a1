/** Where focus goes once the page shows what an edit has changed: what had it may have moved, or be gone. */
import { useLayoutEffect } from "preact/hooks";

let wanted: string | undefined;

/** After the next rendering focus is on the first of what `selector` finds. */
export function focusNext(selector: string): void {
  wanted = selector;
}

/** Carries out what was wished for last. For the one component that renders on each edit. */
export function useWantedFocus(): void {
  useLayoutEffect(() => {
    if (wanted === undefined) return;
    const found = document.querySelector<HTMLElement>(wanted);
    if (!found) return;
    wanted = undefined;
    found.focus();
    found.scrollIntoView({ block: "nearest" });
  });
}
