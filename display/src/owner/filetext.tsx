/** A file of the book as text: for what the forms do not hold, such as comments, order, or a whole new drink. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import type { BookFile } from "../wire.gen";
import { edit, edits } from "./data";
import { countIn, setText } from "./edits";

export function FileText({ file }: { file: BookFile }): JSX.Element {
  const held = edits.value.texts[file.file];
  const [text, setText_] = useState(held ?? file.text);
  const others = held === undefined && countIn(edits.value, file.file, []) > 0;
  return (
    <details class="file-text" open={held !== undefined}>
      <summary>
        {file.file} as text{held !== undefined && <em> edited</em>}
      </summary>
      <label>
        <span class="unseen">Text of {file.file}</span>
        <textarea
          rows={18}
          spellcheck={false}
          value={text}
          onInput={(event) => setText_(event.currentTarget.value)}
        />
      </label>
      {others && <p>The form’s edits in this file give way to its text.</p>}
      <div class="buttons">
        <button type="button" onClick={() => edit(setText(edits.peek(), file.file, text, file.text))}>
          Try this text
        </button>
        <button
          type="button"
          class="plain"
          disabled={held === undefined && text === file.text}
          onClick={() => {
            setText_(file.text);
            edit(setText(edits.peek(), file.file, file.text, file.text));
          }}
        >
          As it is written
        </button>
      </div>
    </details>
  );
}
