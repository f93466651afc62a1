/** Where there is nothing to build, or nothing known yet. */
import type { JSX } from "preact";
import { menu, menuFault, queue } from "../link/shop";

/** What stands where the sheet would, when there is nothing to build or nothing known yet. */
export function Empty(): JSX.Element {
  if (!queue.value || !menu.value) {
    return (
      <p class="empty">
        {menuFault.value ?? "Joining the shop …"}
        <span>The queue appears here as soon as the service answers.</span>
      </p>
    );
  }
  return (
    <p class="empty">
      No drinks in the queue.
      <span>
        Ring one in at the <a href="/register">register</a>.
      </span>
    </p>
  );
}
