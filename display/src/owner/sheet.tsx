/** One table of the book as a form: what is written, what could be, and the table's own coming and going. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import type { BookFault, Entry } from "../wire.gen";
import { counted } from "../words";
import { book, edit, edits, trial } from "./data";
import {
  type Added,
  dropTable,
  heldAt,
  isRemoved,
  type Path,
  putTable,
  type Scalar,
  same,
  setKey,
  toggleTable,
} from "./edits";
import { Field } from "./field";
import { faultAt, keyName, type Sheet } from "./subjects";

function faults(): readonly BookFault[] {
  const tried = trial.value.last?.faults ?? [];
  return tried.length > 0 ? tried : (book.value?.faults ?? []);
}

function EntryField({ sheet, entry }: { sheet: Sheet; entry: Entry }): JSX.Element {
  const value = heldAt(edits.value, sheet.file, entry.path, entry.value);
  return (
    <Field
      entry={entry}
      value={value}
      edited={!same(value, entry.value)}
      fault={faultAt(faults(), sheet.file, entry)}
      onChange={(next) => edit(setKey(edits.peek(), sheet.file, entry.path, next, entry.value))}
    />
  );
}

/** The keys of a table: those written or edited, then those that could be. */
function Entries({ sheet }: { sheet: Sheet }): JSX.Element {
  const shown = (entry: Entry): boolean =>
    entry.value !== null ||
    entry.needed ||
    heldAt(edits.value, sheet.file, entry.path, null) !== null ||
    faultAt(faults(), sheet.file, entry) !== undefined;
  const written = sheet.table.entries.filter(shown);
  const others = sheet.table.entries.filter((entry) => !shown(entry));
  return (
    <>
      {written.map((entry) => (
        <EntryField key={entry.key} sheet={sheet} entry={entry} />
      ))}
      {others.length > 0 && (
        <details class="more-keys">
          <summary>{counted(others.length, "key")} not written</summary>
          {others.map((entry) => (
            <EntryField key={entry.key} sheet={sheet} entry={entry} />
          ))}
        </details>
      )}
    </>
  );
}

/** A table that is put in and not saved yet, with the keys of its like. */
export function AddedSheet({ added, like }: { added: Added; like: Sheet }): JSX.Element {
  const put = (key: string, value: Scalar): void => {
    const { [key]: _old, ...others } = added.values;
    edit(putTable(edits.peek(), { ...added, values: value === null ? others : { ...others, [key]: value } }));
  };
  return (
    <section class="sheet-form sheet-added" aria-label="Put in">
      <h3>
        {typeof added.path[added.path.length - 1] === "number" ? "A step put in" : added.path.join(" · ")}
      </h3>
      {like.table.entries.map((entry) => (
        <Field
          key={entry.key}
          entry={{ ...entry, comment: "" }}
          value={added.values[entry.key] ?? null}
          edited={false}
          fault={faultAt(faults(), added.file, { path: [...added.path, entry.key] })}
          onChange={(value) => put(entry.key, value)}
        />
      ))}
      <button
        type="button"
        class="plain"
        onClick={() => edit(dropTable(edits.peek(), added.file, added.path))}
      >
        Leave it out again
      </button>
    </section>
  );
}

/** The keys that a new table cannot do without: empty, or with the choice that its like has made. */
function blank(like: Sheet): Added["values"] {
  const needed = like.table.entries.filter((entry) => entry.needed);
  return Object.fromEntries(
    needed.map((entry) => [entry.key, entry.kind === "choice" && entry.value !== null ? entry.value : ""]),
  );
}

function Tools({ sheet }: { sheet: Sheet }): JSX.Element {
  const [id, setId] = useState("");
  const { file, table } = sheet;
  const last = table.path[table.path.length - 1];
  const gone = isRemoved(edits.value, file, table.path);
  const put = (path: Path): void => edit(putTable(edits.peek(), { file, path, values: blank(sheet) }));
  return (
    <div class="buttons sheet-tools">
      <button type="button" class="plain" onClick={() => edit(toggleTable(edits.peek(), file, table.path))}>
        {gone ? "Keep it after all" : "Take it out"}
      </button>
      {typeof last === "number" ? (
        <button
          type="button"
          class="plain"
          onClick={() => put([...table.path.slice(0, -1), last + 1])}
          disabled={edits.value.added.some((one) => same(one.path, [...table.path.slice(0, -1), last + 1]))}
        >
          A step after this
        </button>
      ) : (
        <form
          class="sheet-new"
          onSubmit={(event) => {
            event.preventDefault();
            if (id !== "") put([...table.path.slice(0, -1), id]);
            setId("");
          }}
        >
          <input
            aria-label="Id of one more of its kind, such as oat_milk"
            placeholder="id of one more"
            pattern="[a-z][a-z0-9_]*"
            value={id}
            onInput={(event) => setId(event.currentTarget.value)}
          />
          <button type="submit" class="plain">
            Put in
          </button>
        </form>
      )}
    </div>
  );
}

/** A table as a form that opens; `open` at first, and whenever something in it is wrong. */
export function SheetForm({ sheet, open }: { sheet: Sheet; open: boolean }): JSX.Element {
  const { file, table } = sheet;
  const edited = table.entries.filter(
    (entry) => !same(heldAt(edits.value, file, entry.path, entry.value), entry.value),
  ).length;
  const wrong = table.entries.some((entry) => faultAt(faults(), file, entry) !== undefined);
  const gone = isRemoved(edits.value, file, table.path);
  const added = edits.value.added.filter(
    (one) => one.file === file && same(one.path.slice(0, -1), table.path.slice(0, -1)),
  );
  const here = added.filter((one) => {
    const place = one.path[one.path.length - 1];
    const own = table.path[table.path.length - 1];
    return typeof place === "number" ? place === Number(own) + 1 : true;
  });
  return (
    <>
      <details class={`sheet-form${gone ? " sheet-gone" : ""}`} open={open || wrong}>
        <summary>
          <span class="sheet-title">{keyName(table.title)}</span>
          {gone && <em>taken out</em>}
          {!gone && edited > 0 && <em>{counted(edited, "edit")}</em>}
          {wrong && <em class="sheet-wrong">a fault</em>}
        </summary>
        {table.help && <p class="sheet-help">{table.help}</p>}
        {!gone && (
          <div role="group" aria-label={keyName(table.title)}>
            <Entries sheet={sheet} />
          </div>
        )}
        {table.repeats && <Tools sheet={sheet} />}
      </details>
      {table.repeats && here.map((one) => <AddedSheet key={one.path.join(".")} added={one} like={sheet} />)}
    </>
  );
}
