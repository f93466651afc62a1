/** How far a proof has come, as a bar and in words. */
import type { JSX } from "preact";
import type { Proof } from "../../wire.gen";
import { progressWords } from "./proofwatch";

export function Progress({ proof }: { proof: Proof }): JSX.Element {
  return (
    <div class={`proof-progress proof-${proof.state}`}>
      <progress value={proof.done} max={Math.max(1, proof.total)} aria-label="Combinations proved" />
      <p role="status">{progressWords(proof)}</p>
    </div>
  );
}
