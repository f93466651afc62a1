/** The book's versions, the latest first: what was saved, why, what became of it, and the way back. */
import "../styles/owner/owner.css";
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import { act, ask, reason } from "../link/api";
import { menu, timeZone } from "../link/shop";
import { Dialog } from "../parts/dialog";
import type { BookVersion, Proof, Saved, Versions } from "../wire.gen";
import { Saving, saved } from "./bench/save";
import { book, readBook } from "./book/data";
import { fileName } from "./book/subjects";
import { useProof } from "./proof/proofwatch";
import { OwnerTop } from "./top";

const STATES: Record<BookVersion["state"], string> = {
  open: "open now",
  proving: "being proved",
  draft: "draft",
  earlier: "earlier",
};

const BY: Record<BookVersion["by"], string> = {
  bench: "saved on the bench",
  folder: "changed in the folder",
  "roll-back": "rolled back",
};

/** What is known of a version's proof; `proof` is that of the folder's version, as far as it is. */
export function proofWords(version: BookVersion, proof: Proof | undefined): string {
  if (version.holds === true) return "holds";
  if (version.holds === false) return version.anyway ? "fails; opened by the owner’s word" : "fails";
  const here = proof?.version === version.version ? proof : undefined;
  const share = `${Math.floor((100 * (here?.done ?? 0)) / Math.max(1, here?.total ?? 0))} %`;
  if (here?.state === "running") return `being proved, ${share}`;
  if (here?.state === "stopped") return `stopped at ${share}`;
  return version.anyway ? "not proved; opened by the owner’s word" : "not proved";
}

function at(millis: number, zone: string): string {
  return new Intl.DateTimeFormat("en-GB", { timeZone: zone, dateStyle: "medium", timeStyle: "short" }).format(
    millis,
  );
}

function Back({ version, onDone }: { version: BookVersion; onDone: () => void }): JSX.Element {
  const [note, setNote] = useState("");
  const [wrong, setWrong] = useState("");
  return (
    <Dialog title={`Roll back to ${at(version.at, timeZone.value)}`} onClose={onDone}>
      <form
        class="save-form"
        onSubmit={async (event) => {
          event.preventDefault();
          try {
            const body = { version: version.version, note: note.trim() };
            const back = await act<Saved>("/api/owner/roll-back", body);
            // One panel goes before the other comes, so that focus is in that.
            onDone();
            saved.value = back;
            await readBook();
          } catch (error) {
            setWrong(reason(error));
          }
        }}
      >
        <p>Its files are written back as they were, as a new version; nothing is lost.</p>
        <label>
          Why
          <textarea
            rows={2}
            autofocus
            maxLength={500}
            value={note}
            onInput={(event) => setNote(event.currentTarget.value)}
          />
        </label>
        {wrong && (
          <p class="fault" role="alert">
            {wrong}
          </p>
        )}
        <button type="submit" class="go">
          Roll back
        </button>
      </form>
    </Dialog>
  );
}

interface RowProps {
  readonly version: BookVersion;
  readonly proof: Proof | undefined;
  readonly onBack: () => void;
}

function Row({ version, proof, onBack }: RowProps): JSX.Element {
  const here = book.value?.version === version.version;
  return (
    <tr>
      <th scope="row">
        <time dateTime={new Date(version.at).toISOString()}>{at(version.at, timeZone.value)}</time>
        <small> {BY[version.by]}</small>
      </th>
      <td class="note">{version.note || <small>no note</small>}</td>
      <td>{version.changed.map((file) => fileName(book.value?.files ?? [], file)).join(", ")}</td>
      <td class={`state version-${version.state}`}>
        {STATES[version.state]}
        {here && version.state !== "open" && <small>in the folder</small>}
      </td>
      <td>
        <a href={`/owner/proof?version=${encodeURIComponent(version.version)}`}>
          {proofWords(version, proof)}
        </a>
      </td>
      <td>
        {here ? (
          ""
        ) : (
          <button type="button" class="plain" disabled={!version.kept} onClick={onBack}>
            {version.kept ? "Roll back" : "no longer kept"}
          </button>
        )}
      </td>
    </tr>
  );
}

export function VersionsPage(): JSX.Element {
  const [versions, setVersions] = useState<readonly BookVersion[] | undefined>();
  const [fault, setFault] = useState("");
  const [back, setBack] = useState<BookVersion | null>(null);
  // A save, a book that opens and a proof that ends each change what stands here.
  const [again, setAgain] = useState(0);
  const inForce = menu.value?.book;
  const { proof } = useProof("", again);
  useEffect(() => setAgain((count) => count + 1), [saved.value, inForce]);
  useEffect(() => {
    void readBook();
    const stale = new AbortController();
    ask<Versions>("/api/owner/versions", stale.signal)
      .then((answer) => setVersions(answer.versions))
      .catch((error: unknown) => {
        if (!stale.signal.aborted) setFault(reason(error));
      });
    return () => stale.abort();
  }, [saved.value, inForce, proof?.version, proof?.state]);
  return (
    <div class="owner-page">
      <OwnerTop here="Versions" />
      <main class="versions">
        <h1 tabIndex={-1}>Versions of the book</h1>
        {fault && (
          <p class="fault" role="alert">
            {fault}
          </p>
        )}
        {versions?.length === 0 && <p class="nothing">None saved yet. The bench saves the first.</p>}
        {versions && versions.length > 0 && (
          <div class="scroll-x">
            <table class="ledger">
              <thead>
                <tr>
                  {["When", "Note", "Changed", "State", "Proof"].map((name) => (
                    <th key={name} scope="col">
                      {name}
                    </th>
                  ))}
                  <th scope="col">
                    <span class="unseen">Roll back</span>
                  </th>
                </tr>
              </thead>
              <tbody>
                {versions.map((version, index) => (
                  <Row
                    key={`${version.version}${version.at}${index}`}
                    version={version}
                    proof={proof}
                    onBack={() => setBack(version)}
                  />
                ))}
              </tbody>
            </table>
          </div>
        )}
      </main>
      {back && <Back version={back} onDone={() => setBack(null)} />}
      <Saving />
    </div>
  );
}
