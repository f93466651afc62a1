/** The panels that make something: one more of a kind, another drink like this one; and take a drink away. */
import { signal } from "@preact/signals";
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { Dialog } from "../parts/dialog";
import { plainDraft } from "../register/draft";
import type { TableShape } from "../wire.gen";
import { capital } from "../words";
import { desk, edit, edits, editTexts, textNow, tried, tryMenu } from "./data";
import { withName } from "./drinks";
import { toggleTable } from "./edits";
import { focusNext } from "./focus";
import { idFrom, isId } from "./ids";
import { drinkOfFile } from "./subjects";
import { isKeyed, likeOptions, likes, objection, placeOf, putThing } from "./things";

/** What is being made, if anything. */
type Making =
  | { readonly what: "thing"; readonly kinds: readonly TableShape[]; readonly near: string }
  | { readonly what: "drink"; readonly file: string; readonly name: string }
  | { readonly what: "away"; readonly file: string; readonly name: string };

export const making = signal<Making | null>(null);

const close = (): void => {
  making.value = null;
};

interface Named {
  readonly name: string;
  readonly id: string;
}

/** A name, and the id that is made of it until the id is typed by hand. */
function NameAndId({
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

function Wrong({ text }: { text: string }): JSX.Element | null {
  return text === "" ? null : (
    <p class="fault" role="alert">
      {text}
    </p>
  );
}

interface ThingProps {
  readonly kinds: readonly TableShape[];
  readonly near: string;
  readonly onMade: (id: string) => void;
}

function NewThing({ kinds, near, onMade }: ThingProps): JSX.Element | null {
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
    <Dialog title={`New ${kinds.length === 1 ? kind.one : "…"}`} onClose={close}>
      <form
        class="save-form"
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          setSent(true);
          if (wrong !== "") return;
          edit(putThing(edits.peek(), wanted));
          close();
          onMade(`${kind.file}:${(isKeyed(kind) ? kind.path : placeOf(wanted)).join(".")}`);
        }}
      >
        {kinds.length > 1 && (
          <label>
            What
            <select value={index} onChange={(event) => setIndex(Number(event.currentTarget.value))}>
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
          <NameAndId key={kind.name} of={kind.one.replaceAll(" ", "_")} named={named} onNamed={setNamed} />
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

/** The new drink is tried at once: until a trial tells the menu, it has the choices of the one it is like. */
function tryNew(id: string, like: string, name: string): void {
  const menu = tryMenu.peek();
  const model = menu?.drinks.find((drink) => drink.id === like);
  if (!menu || !model) return;
  const made = { ...model, id, name, default: { ...model.default, drink: id } };
  tryMenu.value = { ...menu, drinks: [...menu.drinks, made] };
  tried.value = plainDraft(made);
}

function AnotherDrink({
  file,
  name,
  onMade,
}: {
  file: string;
  name: string;
  onMade: (id: string) => void;
}): JSX.Element | null {
  const held = desk.value;
  const [named, setNamed] = useState<Named>({ name: "", id: "" });
  const [wrong, setWrong] = useState("");
  const [busy, setBusy] = useState(false);
  if (!held) return null;
  const target = `drinks/${named.id}.toml`;
  const other = held.book.files.find((one) => one.file === target);
  const taken = other ? `${named.id} is the id of “${other.title}” already. Choose another name or id.` : "";
  const make = async (): Promise<void> => {
    if (named.name.trim() === "") return setWrong("It needs a name.");
    if (!isId(named.id))
      return setWrong("It needs an id: small letters, digits and _, at most 40, starting with a letter.");
    if (taken !== "") return setWrong(taken);
    setBusy(true);
    const refused = await withName(await textNow(file), target, named.name.trim());
    setBusy(false);
    if ("wrong" in refused) return setWrong(refused.wrong);
    const failed = await editTexts({
      ...edits.peek(),
      texts: { ...edits.peek().texts, [target]: refused.text },
    });
    if (failed !== "") return setWrong(failed);
    tryNew(named.id, drinkOfFile(file), named.name.trim());
    close();
    onMade(target);
  };
  return (
    <Dialog title={`Another like ${name}`} onClose={close}>
      <form
        class="save-form"
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          make().catch((error: unknown) => {
            setBusy(false);
            setWrong(String(error));
          });
        }}
      >
        <NameAndId
          of="drink"
          named={named}
          onNamed={(next) => {
            setWrong("");
            setNamed(next);
          }}
        />
        <p>
          It begins with the steps, choices and prices of {name}, as they are here now. Nothing is saved
          before you say so.
        </p>
        <Wrong text={wrong || taken} />
        <button type="submit" class="go" disabled={busy}>
          {busy ? "Making it …" : "Make it"}
        </button>
      </form>
    </Dialog>
  );
}

function TakeAway({ file, name }: { file: string; name: string }): JSX.Element {
  return (
    <Dialog title={`Take ${name} off the menu?`} onClose={close}>
      <p>
        Its file goes with the next save. Until then you can undo this here; afterwards a version before it
        can be rolled back to. Drinks of it in the queue keep their build.
      </p>
      <div class="buttons">
        <button
          type="button"
          class="danger"
          onClick={() => {
            focusNext("[data-back-on]");
            edit(toggleTable(edits.peek(), file, []));
            close();
          }}
        >
          Take it off
        </button>
        <button type="button" onClick={close}>
          Leave it on
        </button>
      </div>
    </Dialog>
  );
}

/** Whatever is being made. `onMade` is told the subject's id. */
export function MakingPanel({ onMade }: { onMade: (id: string) => void }): JSX.Element | null {
  const now = making.value;
  switch (now?.what) {
    case "thing":
      return <NewThing kinds={now.kinds} near={now.near} onMade={onMade} />;
    case "drink":
      return <AnotherDrink file={now.file} name={now.name} onMade={onMade} />;
    case "away":
      return <TakeAway file={now.file} name={now.name} />;
    default:
      return null;
  }
}
