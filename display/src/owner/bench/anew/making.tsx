/** What is being made on the bench: one more of a kind, another drink; or which drink is taken away. */
import { signal } from "@preact/signals";
import type { JSX } from "preact";
import type { TableShape } from "../../../wire.gen";
import { AnotherDrink, TakeAway } from "./newdrink";
import { NewThing } from "./newthing";

/** What is being made, if anything. */
type Making =
  | { readonly what: "thing"; readonly kinds: readonly TableShape[]; readonly near: string }
  | { readonly what: "drink"; readonly file: string; readonly name: string }
  | { readonly what: "away"; readonly file: string; readonly name: string };

export const making = signal<Making | null>(null);

const close = (): void => {
  making.value = null;
};

/** Whatever is being made. `onMade` is told the subject's id. */
export function MakingPanel({ onMade }: { onMade: (id: string) => void }): JSX.Element | null {
  const now = making.value;
  switch (now?.what) {
    case "thing":
      return <NewThing kinds={now.kinds} near={now.near} onMade={onMade} onClose={close} />;
    case "drink":
      return <AnotherDrink file={now.file} name={now.name} onMade={onMade} onClose={close} />;
    case "away":
      return <TakeAway file={now.file} name={now.name} onClose={close} />;
    default:
      return null;
  }
}
