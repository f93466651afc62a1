/** The panel that puts in one more of a kind: an ingredient, a tool, a sugar level. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { Dialog } from "../../../parts/dialog";
import type { TableShape } from "../../../wire.gen";
import { capital } from "../../../words/words";
import { desk, edit, edits } from "../../book/data";
import { isKeyed, isTaken, likeOptions, likes, objection, placeOf, putThing } from "../../book/things";
import { NameAndId, type Named, Wrong } from "./naming";

interface ThingProps {
  readonly kinds: readonly TableShape[];
  readonly near: string;
  readonly onMade: (id: string) => void;
  readonly onClose: () => void;
}

export function NewThing({ kinds, near, onMade, onClose }: ThingProps): JSX.Element | null {
  const held = desk.value;
  const [index, setIndex] = useState(0);
  const [named, setNamed] = useState<Named>({ name: "", id: "" });
  const [like, setLike] = useState(near);
  const [sent, setSent] = useState(false);
  const kind = kinds[index];
  if (!held || !kind) return null;
  const all = likes(held, kind);
  const copied = all.find((one) => one.path.join(".") === like) ?? all[0];
  const wanted = { kind, ...named, like: copied };
  const wrong = objection(held, wanted);
  return (
    <Dialog title={`New ${kinds.length === 1 ? kind.one : "…"}`} onClose={onClose}>
      <form
        class="save-form"
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          setSent(true);
          if (wrong !== "") return;
          edit(putThing(edits.peek(), wanted));
          onClose();
          onMade(`${kind.file}:${(isKeyed(kind) ? kind.path : placeOf(wanted)).join(".")}`);
        }}
      >
        {kinds.length > 1 && (
          <label>
            What
            <select value={index} autofocus onChange={(event) => setIndex(Number(event.currentTarget.value))}>
              {kinds.map((one, place) => (
                <option key={one.name} value={place}>
                  {capital(one.one)}
                </option>
              ))}
            </select>
          </label>
        )}
        {isKeyed(kind) ? (
          <>
            <label>
              The customer’s word for it
              <input
                type="text"
                required
                maxLength={40}
                placeholder="some sugar"
                value={named.name}
                onInput={(event) => setNamed({ ...named, name: event.currentTarget.value })}
              />
            </label>
            <label>
              Per cent of the recipe’s sweetener
              <input
                type="text"
                inputMode="numeric"
                maxLength={3}
                placeholder="60"
                value={named.id}
                onInput={(event) => setNamed({ ...named, id: event.currentTarget.value.trim() })}
              />
            </label>
          </>
        ) : (
          <NameAndId
            key={kind.name}
            of={kind.one.replaceAll(" ", "_")}
            named={named}
            taken={(id) => isTaken(held, kind, id)}
            onNamed={setNamed}
          />
        )}
        {all.length > 0 && (
          <label>
            Begins with the figures of
            <select value={copied?.path.join(".")} onChange={(event) => setLike(event.currentTarget.value)}>
              {likeOptions(all).map((one) => (
                <option key={one.value} value={one.value}>
                  {capital(one.name)}
                </option>
              ))}
            </select>
          </label>
        )}
        {kind.one === "ingredient" && (
          <p>
            Then go through every figure with the package in hand: density, sugars, energy,{" "}
            <strong>allergens</strong>. They are those of {copied?.title} until you write its own.
          </p>
        )}
        {(sent || (named.id !== "" && wrong.includes("already"))) && <Wrong text={wrong} />}
        <button type="submit" class="go">
          Put it in
        </button>
      </form>
    </Dialog>
  );
}
