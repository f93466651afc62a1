/** What to do about the book, what helps most combinations first. */
import type { JSX } from "preact";
import type { Proof } from "../../wire.gen";

/** As many pieces of advice as one sitting takes; the rest can be opened. */
const FIRST = 6;

function Pieces({ advice }: { advice: Proof["advice"] }): JSX.Element {
  return (
    <ul class="advice">
      {advice.map((one) => (
        <li key={`${one.drink}${one.text}`}>{one.text}</li>
      ))}
    </ul>
  );
}

export function Advice({ proof }: { proof: Proof }): JSX.Element {
  const { advice } = proof;
  if (advice.length === 0) return <p class="nothing">No advice: nothing is too coarse or too full.</p>;
  return (
    <>
      <Pieces advice={advice.slice(0, FIRST)} />
      {advice.length > FIRST && (
        <details class="more-keys">
          <summary>{advice.length - FIRST} more, for fewer combinations</summary>
          <Pieces advice={advice.slice(FIRST)} />
        </details>
      )}
    </>
  );
}
