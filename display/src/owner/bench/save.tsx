/** Saving: a note, the proof under way, and then published, or why not and the owner's explicit word. */
import { signal } from "@preact/signals";
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import { act, reason } from "../../link/api";
import { Dialog } from "../../parts/dialog";
import type { Proof, Saved } from "../../wire.gen";
import { counted, listed } from "../../words/words";
import { book, edit, edits, readBook } from "../book/data";
import { countOf, NO_EDITS } from "../book/edits";
import { toSend } from "../book/sending";
import { fileName } from "../book/subjects";
import { Progress } from "../proof/progress";
import { useProof } from "../proof/proofwatch";
import { Violations } from "../proof/violations";

/** The version that was saved last and what became of it; its dialog stays open until it is closed. */
export const saved = signal<Saved | null>(null);
/** True while the note is being written. */
export const noting = signal(false);

async function save(note: string): Promise<string> {
  const held = book.peek();
  if (!held) return "The book has not come yet.";
  try {
    const body = { edits: toSend(edits.peek()), note, base_version: held.version };
    saved.value = await act<Saved>("/api/owner/save", body);
    edit(NO_EDITS);
    await readBook();
    return "";
  } catch (error) {
    return reason(error);
  }
}

function Noting(): JSX.Element {
  const [note, setNote] = useState("");
  const [wrong, setWrong] = useState("");
  const [busy, setBusy] = useState(false);
  // Counted once: a save that has gone through leaves none, a moment before this panel closes.
  const [count] = useState(() => countOf(edits.peek()));
  return (
    <Dialog
      title="Save as a new version"
      onClose={() => {
        noting.value = false;
      }}
    >
      <form
        class="save-form"
        noValidate
        onSubmit={async (event) => {
          event.preventDefault();
          if (note.trim() === "") {
            setWrong(
              "Write a few words: by them you find this version again when you want to go back to it.",
            );
            event.currentTarget.querySelector("textarea")?.focus();
            return;
          }
          setBusy(true);
          const refused = await save(note.trim());
          setBusy(false);
          setWrong(refused);
          if (refused === "") noting.value = false;
        }}
      >
        <label>
          What was changed, and why (a few words are needed)
          <textarea
            rows={3}
            maxLength={500}
            required
            autofocus
            aria-invalid={wrong !== "" && note.trim() === ""}
            value={note}
            onInput={(event) => {
              setNote(event.currentTarget.value);
              setWrong("");
            }}
          />
        </label>
        <p>
          {counted(count, "edit")} {count === 1 ? "goes" : "go"} into the book’s files; comments stay. Then
          every combination is proved, and the version opens by itself when the proof holds.
        </p>
        {wrong && (
          <p class="fault" role="alert">
            {wrong}
          </p>
        )}
        <button type="submit" class="go" disabled={busy}>
          {busy ? "Saving …" : "Save and prove"}
        </button>
      </form>
    </Dialog>
  );
}

/** The owner's word for a version whose proof fails. */
export function OwnWord({ version, onDone }: { version: string; onDone: () => void }): JSX.Element {
  const [word, setWord] = useState(false);
  const [wrong, setWrong] = useState("");
  return (
    <div class="own-word">
      <label>
        <input type="checkbox" checked={word} onChange={(event) => setWord(event.currentTarget.checked)} />I
        have read what fails and open this version all the same. The register then refuses the combinations
        that fail.
      </label>
      {wrong && (
        <p class="fault" role="alert">
          {wrong}
        </p>
      )}
      <button
        type="button"
        class="danger"
        disabled={!word}
        onClick={async () => {
          try {
            await act<Saved>("/api/owner/publish", { version });
            await readBook();
            onDone();
          } catch (error) {
            setWrong(reason(error));
          }
        }}
      >
        Open it by my word
      </button>
    </div>
  );
}

function proofPage(of: Saved): string {
  return `/owner/proof?version=${encodeURIComponent(of.version)}`;
}

/** What was saved, by the names of drinks and shared files. */
function changedWords(of: Saved): string {
  if (of.changed.length === 0) return "Nothing was changed";
  return `Saved: ${listed(of.changed.map((file) => fileName(book.value?.files ?? [], file)))}`;
}

/** Whoever opened the panels of saving is gone by their end: focus goes to where the work goes on. */
function focusAfter(): void {
  document.querySelector<HTMLElement>(".bench-subject select, main h1[tabindex]")?.focus();
}

function Became({ of, proof }: { of: Saved; proof: Proof | undefined }): JSX.Element {
  const [word, setWord] = useState(false);
  const open = book.value?.open === of.version;
  useEffect(() => {
    // When its proof has ended the service opens the version, or not: the book then tells so.
    if (proof?.state === "holds" || proof?.state === "fails") void readBook();
  }, [proof?.state]);
  if (word || (open && proof?.state !== "holds")) {
    return <p class="became">Version {of.version} is open. The register uses it from now on.</p>;
  }
  if (proof?.state === "holds" || of.state === "open") {
    return (
      <p class="became">The proof holds. Version {of.version} is published: the register uses it now.</p>
    );
  }
  if (proof?.state === "none" || proof?.state === "stopped") {
    return (
      <p>
        The proof is not at work, so the version stays a draft.{" "}
        <a href={proofPage(of)}>Go on with the proof.</a>
      </p>
    );
  }
  if (proof?.state !== "fails") {
    return (
      <p>Until the proof is done the register goes on with the version before. You can go on working.</p>
    );
  }
  return (
    <>
      <p>It stays a draft, and the register goes on with the version before.</p>
      <Violations proof={proof} most={4} />
      <p>
        What to do: close this and mend what fails, and save again; or take the earlier files back on{" "}
        <a href="/owner/versions">Versions</a>. <a href={proofPage(of)}>The whole proof, with advice.</a>
      </p>
      <OwnWord
        version={of.version}
        onDone={() => {
          document.querySelector<HTMLElement>("dialog[open] .dialog-head button")?.focus();
          setWord(true);
        }}
      />
    </>
  );
}

function AfterSave({ of }: { of: Saved }): JSX.Element {
  const { proof, fault } = useProof(of.state === "open" ? null : of.version);
  return (
    <Dialog
      title={changedWords(of)}
      onClose={() => {
        saved.value = null;
        requestAnimationFrame(focusAfter);
        void readBook();
      }}
    >
      {proof && <Progress proof={proof} />}
      {fault && <p class="fault">{fault}</p>}
      <Became of={of} proof={proof} />
    </Dialog>
  );
}

/** The dialogs of saving, whichever is due. */
export function Saving(): JSX.Element | null {
  if (noting.value) return <Noting />;
  return saved.value ? <AfterSave key={saved.value.version} of={saved.value} /> : null;
}
