/** The left of the bench: what to edit, by subject, and its forms. */
import { signal } from "@preact/signals";
import type { JSX } from "preact";
import { changeDrink } from "../register/draft";
import { menu } from "../shop";
import type { BookFault, Workbook } from "../wire.gen";
import { capital } from "../words";
import { book, edit, edits, trial, tried } from "./data";
import { countIn, heldAt, same, setKey } from "./edits";
import { FileText } from "./filetext";
import { SheetForm } from "./sheet";
import { faultAt, faultsElsewhere, GROUPS, type Group, type Sheet, type Subject, subjects } from "./subjects";

/** What is being edited: a group, and in it a subject. */
export const group = signal<Group>("Drinks");
const chosen = signal<Partial<Record<Group, string>>>({});

/** Shows a drink's own file, when the sentence at the right is about another drink. */
export function showDrink(drink: string): void {
  chosen.value = { ...chosen.peek(), Drinks: `drinks/${drink}.toml` };
}

/** Chooses what to edit; a drink that is edited is the one tried. */
function choose(id: string): void {
  chosen.value = { ...chosen.value, [group.value]: id };
  const drink = menu.value?.drinks.find((one) => `drinks/${one.id}.toml` === id);
  if (group.value === "Drinks" && drink && tried.value) tried.value = changeDrink(tried.value, drink);
}

/** What is chosen in the group: by hand, or the drink that is tried. */
function chosenId(): string | undefined {
  const byHand = chosen.value[group.value];
  if (byHand !== undefined || group.value !== "Drinks" || !tried.value) return byHand;
  return `drinks/${tried.value.drink}.toml`;
}

/** How many tables of a subject are edited. */
function edited(subject: Subject): number {
  return subject.sheets.filter(({ file, table }) => countIn(edits.value, file, table.path) > 0).length;
}

/** Prices stand in rows: one for each table, a field for each key. */
function PriceRows({
  sheets,
  faults,
}: {
  sheets: readonly Sheet[];
  faults: readonly BookFault[];
}): JSX.Element {
  return (
    <div class="price-rows">
      {sheets.map(({ file, table }) => (
        <fieldset key={`${file}${table.path.join(".")}`}>
          <legend>{capital(table.title)}</legend>
          {table.entries.map((entry) => {
            const value = heldAt(edits.value, file, entry.path, entry.value);
            const changed = !same(value, entry.value);
            const fault = faultAt(faults, file, entry);
            return (
              <label key={entry.key} class={changed ? "field-edited" : ""}>
                {entry.key.replaceAll("_", " ")}
                <input
                  inputMode="decimal"
                  value={typeof value === "string" ? value : ""}
                  aria-invalid={fault !== undefined}
                  onInput={(event) => {
                    const text = event.currentTarget.value;
                    edit(setKey(edits.peek(), file, entry.path, text === "" ? null : text, entry.value));
                  }}
                />
                <small>
                  {changed ? `was ${String(entry.value ?? "not written")}` : ""}
                  {fault && <strong class="field-fault">accepted: {fault.accepted}</strong>}
                </small>
              </label>
            );
          })}
        </fieldset>
      ))}
    </div>
  );
}

function OtherFaults({ faults }: { faults: readonly BookFault[] }): JSX.Element | null {
  if (faults.length === 0) return null;
  return (
    <div class="other-faults" role="alert">
      <strong>Refused elsewhere in the book:</strong>
      <ul>
        {faults.slice(0, 5).map((fault) => (
          <li key={`${fault.file}${fault.key}${fault.line}`}>
            <b>
              {fault.file}, line {fault.line}
              {fault.key ? `, ${fault.key}` : ""}
            </b>
            : {fault.message}
          </li>
        ))}
      </ul>
      {faults.length > 5 && <p>and {faults.length - 5} more</p>}
    </div>
  );
}

function SubjectForms({ held, subject }: { held: Workbook; subject: Subject }): JSX.Element {
  const tried = trial.value.last?.faults ?? [];
  const faults = tried.length > 0 ? tried : held.faults;
  const file = held.files.find((one) => one.file === subject.sheets[0]?.file);
  const asText = file !== undefined && file.file in edits.value.texts;
  return (
    <>
      <OtherFaults faults={faultsElsewhere(faults, subject.sheets)} />
      {group.value === "Prices" && <PriceRows sheets={subject.sheets} faults={faults} />}
      {group.value !== "Prices" && asText && (
        <p class="nothing">This file is edited as text, below. Take that back to have its forms again.</p>
      )}
      {group.value !== "Prices" &&
        !asText &&
        subject.sheets.map((sheet, index) => (
          <SheetForm key={`${sheet.file}${sheet.table.path.join(".")}`} sheet={sheet} open={index === 0} />
        ))}
      {group.value !== "Prices" && file && <FileText key={file.file} file={file} />}
    </>
  );
}

export function Forms(): JSX.Element {
  const held = book.value;
  if (!held) return <section class="bench-forms" aria-label="What to edit" />;
  const all = subjects(held, group.value);
  const wanted = chosenId();
  const subject = all.find((one) => one.id === wanted) ?? all[0];
  return (
    <section class="bench-forms" aria-label="What to edit">
      <div class="bench-groups" role="group" aria-label="Part of the book">
        {GROUPS.map((one) => (
          <button
            key={one}
            type="button"
            aria-pressed={group.value === one}
            onClick={() => {
              group.value = one;
            }}
          >
            {one}
            {subjects(held, one).some((subject) => edited(subject) > 0) && <em>edited</em>}
          </button>
        ))}
      </div>
      <div class="bench-subject">
        <select
          aria-label={group.value}
          value={subject?.id ?? ""}
          onChange={(event) => choose(event.currentTarget.value)}
        >
          {all.map((one) => (
            <option key={one.id} value={one.id}>
              {capital(one.name)}
              {edited(one) > 0 ? " (edited)" : ""}
            </option>
          ))}
        </select>
      </div>
      <div class="bench-sheets">
        {subject && <SubjectForms key={subject.id} held={held} subject={subject} />}
      </div>
    </section>
  );
}
