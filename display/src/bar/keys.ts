/** The keys that need no drink: they work on an empty sheet as well. */

import { recall } from "../floor/acts";
import { listOpen } from "../floor/bumped";
import { bumps } from "../floor/bumps";
import { queue } from "../link/shop";
import { noteKey, turnLegend } from "./alive";

/** The key pressed as the sheet knows it: letters small; undefined where it is meant for the browser. */
export function keyOf(event: KeyboardEvent): string | undefined {
  if (event.ctrlKey || event.altKey || event.metaKey) return undefined;
  return event.key.length === 1 ? event.key.toLowerCase() : event.key;
}

/** Recalls the last bump, opens the list of all, or turns the legend; tells whether the key is one of these. */
export function plainKey(key: string): boolean {
  if (key === "r") {
    const newest = queue.value && bumps(queue.value)[0];
    if (newest) void recall(newest);
  } else if (key === "l") listOpen.value = true;
  else if (key === "k") turnLegend();
  else return false;
  if (key !== "k") noteKey();
  return true;
}
