/** A file of the book as text, with all that its forms have edited written in it: for comments, or a whole rewrite. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { reason } from "../../../link/api";
import { book, edits, editTexts, textNow } from "../../book/data";
import { countIn, setText } from "../../book/edits";

/** `text` null: not asked for yet. */
interface Held {
  readonly text: string | null;
  readonly edited: boolean;
  readonly wrong: string;
}

const NOTHING: Held = { text: null, edited: false, wrong: "" };

export function FileText({ file }: { file: string }): JSX.Element {
  const [held, setHeld] = useState<Held>(NOTHING);
  const changed = countIn(edits.value, file, []) > 0;
  const written = book.value?.files.find((one) => one.file === file)?.text;
  const read = async (): Promise<void> => {
    try {
      setHeld({ text: await textNow(file), edited: false, wrong: "" });
    } catch (error) {
      setHeld({ ...NOTHING, text: "", wrong: reason(error) });
    }
  };
  const take = async (text: string): Promise<void> => {
    const wrong = await editTexts(setText(edits.peek(), file, text, written));
    setHeld({ text, edited: wrong !== "", wrong });
  };
  return (
    <details
      class="file-text"
      onToggle={(event) => {
        if (event.currentTarget.open && !held.edited) void read();
      }}
    >
      <summary>
        {file} as text{changed && <em> edited</em>}
      </summary>
      {held.text === null && <p class="nothing">Reading it …</p>}
      {held.text !== null && (
        <label>
          <span class="unseen">Text of {file}</span>
          <textarea
            rows={18}
            spellcheck={false}
            value={held.text}
            onInput={(event) => setHeld({ ...held, text: event.currentTarget.value, edited: true })}
          />
        </label>
      )}
      <p>
        What the forms have edited stands in it. What you write here, the forms show as soon as it is tried.
      </p>
      {held.wrong && (
        <p class="fault" role="alert">
          {held.wrong}
        </p>
      )}
      <div class="buttons">
        <button type="button" disabled={!held.edited} onClick={() => void take(held.text ?? "")}>
          Try this text
        </button>
        <button type="button" class="plain" disabled={!held.edited} onClick={() => void read()}>
          Forget what I wrote
        </button>
        {written !== undefined && (
          <button
            type="button"
            class="plain"
            disabled={!changed && !held.edited}
            onClick={() => void take(written)}
          >
            As it is saved
          </button>
        )}
      </div>
    </details>
  );
}
