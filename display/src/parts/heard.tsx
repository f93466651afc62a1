/** What is seen at a glance and heard in words: marks and figures for the eyes, a sentence for the ears. */
import type { ComponentChildren, JSX } from "preact";

/** Names the control that it stands in by `as`; what is seen is left out of its name. */
export function Heard({ as, children }: { as: string; children: ComponentChildren }): JSX.Element {
  return (
    <>
      <div class="seen" aria-hidden="true">
        {children}
      </div>
      <span class="unseen">{as}</span>
    </>
  );
}
