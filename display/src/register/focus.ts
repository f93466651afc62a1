/** Where the focus goes once the screen has moved on, so that nobody has to walk to the next act by keyboard. */
import { signal } from "@preact/signals";
import type { RefObject } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";

type Place = "drinks" | "sentence" | "ring in";

const wished = signal<Place | null>(null);

/** Has the focus go to a place as soon as that is on the screen. */
export function wish(place: Place): void {
  wished.value = place;
}

/** The element of a place; takes the focus itself, or gives it to what `inner` finds in it first. */
export function useWished<Here extends HTMLElement>(
  place: Place,
  ready = true,
  inner: readonly string[] = [],
): RefObject<Here | null> {
  const here = useRef<Here>(null);
  const now = wished.value === place && ready;
  useLayoutEffect(() => {
    if (!now || !here.current) return;
    const found = inner.map((one) => here.current?.querySelector<HTMLElement>(one)).find(Boolean);
    // What is focused stands under the hand already; on a phone nothing may be scrolled away from it.
    (found ?? here.current).focus({ preventScroll: true });
    wished.value = null;
  });
  return here;
}
