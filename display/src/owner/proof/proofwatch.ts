/** The proof of one version, asked for again while it runs: it runs beside the service and tells nobody by itself. */
import { useEffect, useState } from "preact/hooks";
import { ask, reason } from "../../link/api";
import type { Proof } from "../../wire.gen";

/** How long to wait before asking a running proof again, in ms. */
const PACE_MS = 1000;

export interface Watched {
  readonly proof: Proof | undefined;
  readonly fault: string;
}

/** Whether a proof is still coming. */
export function underWay(proof: Proof): boolean {
  return proof.state === "running";
}

/**
 * The proof of `version` (null: nothing is asked; "": the folder's). `again` asks anew when it changes.
 */
export function useProof(version: string | null, again = 0): Watched {
  const [watched, setWatched] = useState<Watched>({ proof: undefined, fault: "" });
  useEffect(() => {
    if (version === null) return undefined;
    const stale = new AbortController();
    let timer: ReturnType<typeof setTimeout> | undefined;
    const query = version === "" ? "" : `?version=${encodeURIComponent(version)}`;
    const read = async (): Promise<void> => {
      try {
        const proof = await ask<Proof>(`/api/owner/proof${query}`, stale.signal);
        if (stale.signal.aborted) return;
        setWatched({ proof, fault: "" });
        if (underWay(proof)) timer = setTimeout(() => void read(), PACE_MS);
      } catch (error) {
        if (stale.signal.aborted) return;
        setWatched((before) => ({ ...before, fault: reason(error) }));
        timer = setTimeout(() => void read(), PACE_MS * 3);
      }
    };
    void read();
    return () => {
      stale.abort();
      clearTimeout(timer);
    };
  }, [version, again]);
  return watched;
}

/** How far a proof has come, in words. */
export function progressWords(proof: Proof): string {
  const figures = (value: number): string => value.toLocaleString("en");
  const share = proof.total > 0 ? Math.floor((100 * proof.done) / proof.total) : 0;
  switch (proof.state) {
    case "none":
      return "Not proved yet.";
    case "running":
      return `Proving: ${figures(proof.done)} of ${figures(proof.total)} combinations, ${share} %.`;
    case "stopped":
      return `Stopped at ${figures(proof.done)} of ${figures(proof.total)} combinations, ${share} %; it goes on from there.`;
    case "holds":
      return `The proof holds: ${figures(proof.combinations)} combinations looked at.`;
    case "fails":
      return `The proof fails: ${figures(proof.violated)} breaches among ${figures(proof.combinations)} combinations.`;
  }
}

/** What a proof in this state means for the shop, and what can be done. `open`: the version is in force. */
export function meaningWords(proof: Proof, open: boolean): string {
  switch (proof.state) {
    case "none":
      return "Every combination that the register can ring in is resolved and checked: it has a build or an honest refusal, fits, can be measured, and is never worse than its neighbour without a cause.";
    case "running":
      return "What is done is kept, drink by drink and size by size: it may be interrupted at any time and goes on from there. After an edit only what the edit touches is proved anew.";
    case "stopped":
      return "Nothing done so far is lost.";
    case "holds":
      return open
        ? "This version is open: all that the register takes has a build that was looked at. The same book need not be proved again; an edit proves only what it touches."
        : "This version need not be proved again.";
    case "fails":
      return open
        ? "This version is open all the same: the register refuses each combination that fails, in words, and rings in all others."
        : "This version does not open by itself: the register goes on with the one before. Mend what breaks it on the bench, or open it by your word; then the register refuses what fails.";
  }
}
