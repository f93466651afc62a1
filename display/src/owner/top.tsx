/** The head of the owner's screens: their ways, and what is being proved. */
import type { ComponentChildren, JSX } from "preact";
import { OWNER_SCREENS, Top } from "../screen/top";

export function OwnerTop({ here, children }: { here: string; children?: ComponentChildren }): JSX.Element {
  return (
    <Top here={here} ways={OWNER_SCREENS}>
      {children}
    </Top>
  );
}
