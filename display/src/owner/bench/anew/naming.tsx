/** A name, with the id that is made of it for those who want to see it, and what is wrong with them. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { freeId } from "../../book/ids";

export interface Named {
  readonly name: string;
  readonly id: string;
}

interface NameProps {
  /** What is named, in a word that can be an id. */
  readonly of: string;
  readonly named: Named;
  /** Whether an id is another's already. */
  readonly taken: (id: string) => boolean;
  readonly onNamed: (next: Named) => void;
}

/** A name. The id is made of it; who wants another one opens it and writes it. */
export function NameAndId({ of, named, taken, onNamed }: NameProps): JSX.Element {
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
            onNamed({ name, id: own ? named.id : freeId(name, of, taken) });
          }}
        />
      </label>
      <details class="own-id">
        <summary>What the book’s files call it{named.id === "" ? "" : `: ${named.id}`}</summary>
        <label>
          Small letters, digits and _
          <input
            type="text"
            maxLength={40}
            autocomplete="off"
            spellcheck={false}
            value={named.id}
            onInput={(event) => {
              setOwn(event.currentTarget.value !== "");
              onNamed({ ...named, id: event.currentTarget.value });
            }}
          />
        </label>
      </details>
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
