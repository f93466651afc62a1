/** A customer's name: broken at the ends of its words only, a long word set smaller rather than cut. */
import type { JSX } from "preact";
import { callName, longestPart } from "../words/words";

interface NameProps {
  readonly of: string;
  readonly class?: string;
  /** Where there is room for it all: not shortened to what is called. */
  readonly whole?: boolean;
}

/** Fits into the nearest container that gives its width (`container-type: inline-size`). */
export function CallName({ of, class: name = "", whole = false }: NameProps): JSX.Element | null {
  if (of === "") return null;
  const said = whole ? of : callName(of);
  return (
    <span class={`call-name ${name}`} style={{ "--letters": longestPart(said) }} title={of}>
      {said}
    </span>
  );
}
