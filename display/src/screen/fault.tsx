/** What went wrong with the last act: stays until it is closed or another act is tried. */
import type { JSX } from "preact";
import { fault } from "../link/shop";

export function Fault(): JSX.Element {
  return (
    <div class={fault.value ? "fault" : "unseen"} role="alert">
      {fault.value && (
        <>
          <span>{fault.value}</span>
          <button
            type="button"
            class="plain"
            onClick={() => {
              fault.value = "";
            }}
          >
            Close
          </button>
        </>
      )}
    </div>
  );
}
