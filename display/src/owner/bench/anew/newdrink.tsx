/** The panels that make another drink like one, and take one off the menu. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { plainDraft } from "../../../line/draft";
import { reason } from "../../../link/api";
import { Dialog } from "../../../parts/dialog";
import type { BookFile } from "../../../wire.gen";
import { desk, edit, edits, editTexts, textNow, tried, tryMenu } from "../../book/data";
import { withName } from "../../book/drinks";
import { toggleTable } from "../../book/edits";
import { isId } from "../../book/ids";
import { drinkOfFile, isDrink } from "../../book/subjects";
import { focusNext } from "../focus";
import { NameAndId, type Named, Wrong } from "./naming";

/** The new drink is tried at once: until a trial tells the menu, it has the choices of the one it is like. */
function tryNew(id: string, like: string, name: string): void {
  const menu = tryMenu.peek();
  const model = menu?.drinks.find((drink) => drink.id === like);
  if (!menu || !model) return;
  const made = { ...model, id, name, default: { ...model.default, drink: id } };
  tryMenu.value = { ...menu, drinks: [...menu.drinks, made] };
  tried.value = plainDraft(made);
}

export function AnotherDrink({
  file,
  name,
  onMade,
  onClose,
}: {
  file: string;
  name: string;
  onMade: (id: string) => void;
  onClose: () => void;
}): JSX.Element | null {
  const held = desk.value;
  const [named, setNamed] = useState<Named>({ name: "", id: "" });
  const [wrong, setWrong] = useState("");
  const [busy, setBusy] = useState(false);
  if (!held) return null;
  const fileOf = (id: string): string => `drinks/${id}.toml`;
  const target = fileOf(named.id);
  const other = (id: string): BookFile | undefined => held.book.files.find((one) => one.file === fileOf(id));
  const sameName = held.book.files.some(
    (one) => isDrink(one.file) && one.title.toLowerCase() === named.name.trim().toLowerCase(),
  );
  let taken = sameName ? `There is a drink called ${named.name.trim()} already.` : "";
  if (other(named.id)) taken = `“${other(named.id)?.title}” is called ${named.id} in the files already.`;
  const make = async (): Promise<void> => {
    if (named.name.trim() === "") return setWrong("It needs a name.");
    if (!isId(named.id))
      return setWrong(
        "What the files call it: small letters, digits and _, at most 40, starting with a letter.",
      );
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
    onClose();
    onMade(target);
  };
  return (
    <Dialog title={`Another like ${name}`} onClose={onClose}>
      <form
        class="save-form"
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          make().catch((error: unknown) => {
            setBusy(false);
            setWrong(reason(error));
          });
        }}
      >
        <NameAndId
          of="drink"
          named={named}
          taken={(id) => other(id) !== undefined}
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

export function TakeAway({
  file,
  name,
  onClose,
}: {
  file: string;
  name: string;
  onClose: () => void;
}): JSX.Element {
  return (
    <Dialog title={`Take ${name} off the menu?`} onClose={onClose}>
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
            onClose();
          }}
        >
          Take it off
        </button>
        <button type="button" onClick={onClose}>
          Leave it on
        </button>
      </div>
    </Dialog>
  );
}
