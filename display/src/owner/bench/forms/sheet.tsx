/** One table of the book as a form: what is written, what could be, and the table's own coming and going. */
import { signal } from "@preact/signals";
import type { ComponentChildren, JSX } from "preact";
import { useRef, useState } from "preact/hooks";
import type { BookFault } from "../../../wire.gen";
import { counted } from "../../../words/words";
import { book, desk, edit, edits, trial } from "../../book/data";
import { dropTable, heldAt, same, setKey, toggleTable } from "../../book/edits";
import { optionsOf } from "../../book/offers";
import { type FieldForm, removable, type Sheet } from "../../book/sheets";
import { editsIn, faultAt, faultIn, keyName } from "../../book/subjects";
import { focusNext } from "../focus";
import { Field } from "./field";

/** What the edited book is refused for; with no edits tried yet, the folder's own faults. */
export function faults(): readonly BookFault[] {
  const told = trial.value.last?.faults ?? [];
  return told.length > 0 ? told : (book.value?.faults ?? []);
}

/** Told to those who do not see what has moved. */
export const told = signal("");

/** How a sheet is found in the page, to bring focus back to it. */
export function idOfSheet({ file, path }: Pick<Sheet, "file" | "path">): string {
  return `${file}:${path.join(".")}`;
}

/** A selector of something in a sheet. */
export function inSheet(sheet: Pick<Sheet, "file" | "path">, what: string): string {
  return `[data-sheet="${CSS.escape(idOfSheet(sheet))}"] ${what}`;
}

function EntryField({ sheet, entry }: { sheet: Sheet; entry: FieldForm }): JSX.Element {
  const value = heldAt(edits.value, sheet.file, entry.path, entry.value);
  const held = desk.value;
  return (
    <Field
      entry={entry}
      options={held && entry.source !== "" ? optionsOf(held.book, held.edits, entry.source) : []}
      value={value}
      edited={!sheet.fresh && !same(value, entry.value)}
      fault={faultAt(faults(), edits.value, sheet.file, entry.path)}
      onChange={(next) => edit(setKey(edits.peek(), sheet.file, entry.path, next, entry.value))}
    />
  );
}

/** Where each key of a table stands, by whether it is shown with those written; of one version of the book. */
interface Placed {
  readonly version: string | undefined;
  readonly shown: Map<string, boolean>;
}

/**
 * The keys of a table: those written or edited, then those that could be. A key stays where it was first shown,
 * however it is edited: a field that moved while it is typed in would lose what is typed.
 */
export function Entries({ sheet }: { sheet: Sheet }): JSX.Element {
  const placed = useRef<Placed>({ version: undefined, shown: new Map() });
  const version = book.value?.version;
  if (placed.current.version !== version) placed.current = { version, shown: new Map() };
  const asked = sheet.written || sheet.fresh;
  const holds = (entry: FieldForm): boolean =>
    heldAt(edits.value, sheet.file, entry.path, entry.value) !== null;
  const wrong = (entry: FieldForm): boolean =>
    faultAt(faults(), edits.value, sheet.file, entry.path) !== undefined;
  const shown = (entry: FieldForm): boolean => {
    const missed = entry.needed || (wrong(entry) && !holds(entry));
    const now = !asked || missed || (placed.current.shown.get(entry.key) ?? holds(entry));
    placed.current.shown.set(entry.key, now || entry.value !== null);
    return placed.current.shown.get(entry.key) === true;
  };
  const written = sheet.fields.filter(shown);
  const others = sheet.fields.filter((entry) => !written.includes(entry));
  return (
    <>
      {written.map((entry) => (
        <EntryField key={entry.key} sheet={sheet} entry={entry} />
      ))}
      {others.length > 0 && (
        <MoreKeys count={others.filter((entry) => !holds(entry)).length} wrong={others.some(wrong)}>
          {others.map((entry) => (
            <EntryField key={entry.key} sheet={sheet} entry={entry} />
          ))}
        </MoreKeys>
      )}
    </>
  );
}

function moreWords(count: number): string {
  return count === 0 ? "More that can be said" : `${count} more that can be said`;
}

/** The keys that are not written, to be opened; open by itself where one of them is wrong. */
function MoreKeys({
  count,
  wrong,
  children,
}: {
  count: number;
  wrong: boolean;
  children: ComponentChildren;
}): JSX.Element {
  const [opened, setOpened] = useState(false);
  return (
    <details
      class="more-keys"
      open={opened || wrong}
      onToggle={(event) => setOpened(event.currentTarget.open)}
    >
      <summary>{moreWords(count)}</summary>
      {children}
    </details>
  );
}

/** What is wrong with a table as a whole. */
export function SheetFault({ sheet }: { sheet: Sheet }): JSX.Element | null {
  const fault = faultAt(faults(), edits.value, sheet.file, sheet.path);
  return fault ? <p class="field-fault sheet-fault">{fault.message}</p> : null;
}

/** What has become of a sheet, in words beside its title. */
export function Marks({ sheet }: { sheet: Sheet }): JSX.Element {
  const count = editsIn(edits.value, sheet);
  const wrong = faultIn(faults(), edits.value, sheet) !== undefined;
  return (
    <>
      {sheet.out && <em>taken out</em>}
      {sheet.fresh && <em>put in</em>}
      {!sheet.out && !sheet.fresh && count > 0 && <em>{counted(count, "edit")}</em>}
      {!sheet.out && wrong && <em class="sheet-wrong">a fault</em>}
    </>
  );
}

function TakeOut({ sheet }: { sheet: Sheet }): JSX.Element {
  const { file, path } = sheet;
  let words = sheet.out ? "Keep it after all" : "Take it out";
  if (sheet.fresh) words = "Leave it out again";
  return (
    <button
      type="button"
      class="plain"
      data-take-out
      onClick={() => {
        if (sheet.fresh) {
          focusNext(".bench-subject select");
          edit(dropTable(edits.peek(), file, path));
        } else {
          edit(toggleTable(edits.peek(), file, path));
        }
      }}
    >
      {words}
    </button>
  );
}

/** A table as a form that opens; `open` at first. What something wrong has opened stays so when it is mended. */
export function SheetForm({ sheet, open }: { sheet: Sheet; open: boolean }): JSX.Element {
  const [opened, setOpened] = useState(open);
  const wrong = faultIn(faults(), edits.value, sheet) !== undefined;
  const title = keyName(sheet.path.length === 0 ? "the drink" : sheet.title);
  return (
    <details
      class={`sheet-form${sheet.out ? " sheet-gone" : ""}${sheet.fresh ? " sheet-added" : ""}`}
      data-sheet={idOfSheet(sheet)}
      open={opened || wrong}
      onToggle={(event) => setOpened(event.currentTarget.open)}
    >
      <summary>
        <span class="sheet-title">{title}</span>
        <Marks sheet={sheet} />
        {!sheet.written && !sheet.fresh && editsIn(edits.value, sheet) === 0 && (
          <span class="sheet-unwritten">not used</span>
        )}
      </summary>
      {sheet.help && <p class="sheet-help">{sheet.help}</p>}
      <SheetFault sheet={sheet} />
      {!sheet.out && (
        <div role="group" aria-label={title}>
          <Entries sheet={sheet} />
        </div>
      )}
      {removable(sheet) && (
        <div class="buttons sheet-tools">
          <TakeOut sheet={sheet} />
        </div>
      )}
    </details>
  );
}
