/** What came of the last act, and what is new: for every screen that works on the queue. */
import type { JSX } from "preact";
import { news } from "../link/shop";
import { Fault } from "./fault";

/** Says what went wrong with the last act, and what is new, to eyes and ears. */
export function Says(): JSX.Element {
  return (
    <>
      <p class="unseen" role="status">
        {news.value}
      </p>
      <Fault />
    </>
  );
}
