/**
 * The keys of a bump bar work on the sheet as long as it has the focus (and only then, so that no letter typed elsewhere
 * does anything). So it has the focus from the first, and gets it back whenever it would be nowhere, or stay on what
 * a finger has touched beside the sheet.
 */
import { signal } from "@preact/signals";
import { useEffect } from "preact/hooks";

const STOP = '[data-keys] [tabindex="0"], [data-keys][tabindex]';

/** Brings the focus to the place on the sheet where it was last; nowhere while there is none. */
export function focusSheet(): void {
  document.querySelector<HTMLElement>(STOP)?.focus({ preventScroll: true });
}

/** Whether the focus is nowhere, and no dialog is open that should have it. */
function lost(): boolean {
  const at = document.activeElement;
  return (at === null || at === document.body) && document.querySelector("dialog[open]") === null;
}

/** Keeps the keys alive as long as the sheet is shown. */
export function useKeysAlive(): void {
  useEffect(() => {
    let frame = 0;
    // Focus that moves is nowhere for a moment: only what is so by the next frame is lost.
    const mend = (): void => {
      cancelAnimationFrame(frame);
      frame = requestAnimationFrame(() => {
        if (lost()) focusSheet();
      });
    };
    const touched = (event: MouseEvent): void => {
      // A key pressed on a button clicks too, without a place: whoever moves by keys is left where they are.
      const byFinger = event.detail > 0 && event.target instanceof Element;
      if (byFinger && event.target.closest("button") && !event.target.closest("dialog, [data-keys]")) {
        (document.activeElement as HTMLElement | null)?.blur();
        mend();
      }
    };
    mend();
    document.addEventListener("focusout", mend);
    document.addEventListener("click", touched);
    return () => {
      cancelAnimationFrame(frame);
      document.removeEventListener("focusout", mend);
      document.removeEventListener("click", touched);
    };
  }, []);
}

const LEGEND = "levelscoop.legend";

/** Whether the sheet has been worked by keys since the page opened. */
const keysUsed = signal(false);

/** Whether what the keys do is shown, as chosen on this screen; undefined where nobody chose. */
const chosen = signal<boolean | undefined>(stored());

function stored(): boolean | undefined {
  const kept = globalThis.localStorage?.getItem(LEGEND);
  return kept == null ? undefined : kept === "shown";
}

/** Whether to show what the keys do: as chosen, else once a key was used. A touch wall has no use for it. */
export function legendShown(): boolean {
  return chosen.value ?? keysUsed.value;
}

/** Shows what the keys do, or hides it, and keeps that for this screen. */
export function turnLegend(): void {
  chosen.value = !legendShown();
  localStorage.setItem(LEGEND, chosen.value ? "shown" : "hidden");
}

/** A key was used on the sheet. */
export function noteKey(): void {
  keysUsed.value = true;
}
