/** A name with the id that is made of it, and what is wrong with them. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { idFrom } from "../book/ids";

export interface Named {
  readonly name: string;
  readonly id: string;
}

/** A name, and the id that is made of it until the id is typed by hand. */
export function NameAndId({
  of,
  named,
  onNamed,
}: {
  of: string;
  named: Named;
  onNamed: (next: Named) => void;
}): JSX.Element {
  const [own, setOwn] = useState(false);
  return (
    <>
      <label>
        Its name
        <input
          type="text"
          required
          autofocus
          maxLength={40}
          autocomplete="off"
          value={named.name}
          onInput={(event) => {
            const name = event.currentTarget.value;
            onNamed({ name, id: own ? named.id : idFrom(name) });
          }}
        />
      </label>
      <label>
        Its id in the book’s files, made of the name
        <input
          type="text"
          maxLength={40}
          autocomplete="off"
          spellcheck={false}
          placeholder={`${of}_two`}
          value={named.id}
          onInput={(event) => {
            setOwn(event.currentTarget.value !== "");
            onNamed({ ...named, id: event.currentTarget.value });
          }}
        />
      </label>
    </>
  );
}

export function Wrong({ text }: { text: string }): JSX.Element | null {
  return text === "" ? null : (
    <p class="fault" role="alert">
      {text}
    </p>
  );
}
