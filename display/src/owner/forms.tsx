/** The left of the bench: what to edit, by subject, and its forms. */
import { batch, computed, signal } from "@preact/signals";
import type { JSX } from "preact";
import { changeDrink } from "../register/draft";
import type { BookFault } from "../wire.gen";
import { capital } from "../words";
import { desk, edit, edits, editTexts, tried, tryMenu } from "./data";
import { type Edits, isRemoved, toggleTable, withoutFile } from "./edits";
import { FileText } from "./filetext";
import { focusNext, useWantedFocus } from "./focus";
import { MakingPanel, making } from "./making";
import { PriceRows } from "./prices";
import { faults, SheetForm, told } from "./sheet";
import { Steps } from "./steps";
import {
  drinkOfFile,
  editsIn,
  faultsElsewhere,
  GROUPS,
  type Group,
  groupOf,
  isDrink,
  kindsIn,
  type Subject,
  subjects,
} from "./subjects";

/** What is being edited: a group, and in it a subject. */
export const group = signal<Group>("Drinks");
const chosen = signal<Partial<Record<Group, string>>>({});

/** Everything that can be edited, by group. */
const all = computed((): ReadonlyMap<Group, readonly Subject[]> => {
  const held = desk.value;
  return new Map(held ? GROUPS.map((one) => [one, subjects(held, one)]) : []);
});

/** Shows a drink's own file, when the sentence at the right is about another drink. */
export function showDrink(drink: string): void {
  chosen.value = { ...chosen.peek(), Drinks: `drinks/${drink}.toml` };
}

/** Chooses what to edit; a drink that is edited is the one tried. */
function choose(of: Group, id: string): void {
  chosen.value = { ...chosen.peek(), [of]: id };
  const drink = tryMenu.peek()?.drinks.find((one) => `drinks/${one.id}.toml` === id);
  const now = tried.peek();
  if (of === "Drinks" && drink && now && now.drink !== drink.id) tried.value = changeDrink(now, drink);
}

/** What is chosen in the group: by hand, or the drink that is tried. */
function chosenId(): string | undefined {
  const byHand = chosen.value[group.value];
  if (byHand !== undefined || group.value !== "Drinks" || !tried.value) return byHand;
  return `drinks/${tried.value.drink}.toml`;
}

/** Whether anything in a subject is edited. */
function edited(now: Edits, subject: Subject): boolean {
  const file = subject.sheets[0]?.file ?? "";
  if (isDrink(subject.id) && (file in now.texts || now.orders.some((one) => one.file === file))) return true;
  return subject.sheets.some((sheet) => editsIn(now, sheet) > 0);
}

function OtherFaults({ of }: { of: readonly BookFault[] }): JSX.Element | null {
  if (of.length === 0) return null;
  return (
    <div class="other-faults" role="alert">
      <strong>Refused elsewhere in the book:</strong>
      <ul>
        {of.slice(0, 5).map((fault) => (
          <li key={`${fault.file}${fault.key}${fault.line}`}>
            <b>
              {fault.file}, line {fault.line}
              {fault.key ? `, ${fault.key}` : ""}
            </b>
            : {fault.message}
          </li>
        ))}
      </ul>
      {of.length > 5 && <p>and {of.length - 5} more</p>}
    </div>
  );
}

/** What can be done with a drink as a whole. */
function DrinkTools({ subject }: { subject: Subject }): JSX.Element {
  const { id: file, name } = subject;
  const now = edits.value;
  const isNew = file in now.texts && !desk.value?.saved.has(file);
  if (isRemoved(now, file, [])) {
    return (
      <div class="drink-away" role="status">
        <p>
          <strong>{name} is taken off the menu</strong> with the next save.
        </p>
        <button
          type="button"
          data-back-on
          onClick={() => {
            focusNext("[data-another]");
            edit(toggleTable(edits.peek(), file, []));
          }}
        >
          Keep it on the menu
        </button>
      </div>
    );
  }
  return (
    <div class="buttons drink-tools">
      <button
        type="button"
        data-another
        onClick={() => {
          making.value = { what: "drink", file, name };
        }}
      >
        Another like this …
      </button>
      <button
        type="button"
        class="plain"
        onClick={() => {
          if (!isNew) {
            making.value = { what: "away", file, name };
            return;
          }
          focusNext(".bench-subject select");
          tried.value = undefined;
          chosen.value = {};
          void editTexts(withoutFile(edits.peek(), file));
        }}
      >
        {isNew ? "Leave this new drink out again" : "Take it off the menu …"}
      </button>
    </div>
  );
}

function SubjectForms({ subject }: { subject: Subject }): JSX.Element {
  const refused = faults();
  const file = subject.sheets[0]?.file;
  const away = file !== undefined && isRemoved(edits.value, file, []);
  const plain = subject.sheets.filter((sheet) => !sheet.list);
  const prices = group.value === "Prices";
  return (
    <>
      <OtherFaults of={faultsElsewhere(refused, edits.value, subject.sheets)} />
      {prices && <PriceRows sheets={subject.sheets} faults={refused} />}
      {!prices && isDrink(subject.id) && <DrinkTools subject={subject} />}
      {!prices && !away && (
        <>
          {plain.map((sheet, index) => (
            <SheetForm key={`${sheet.file}${sheet.path.join(".")}`} sheet={sheet} open={index === 0} />
          ))}
          {file && isDrink(file) && (
            <Steps file={file} sheets={subject.sheets.filter((sheet) => sheet.list)} />
          )}
          {file && <FileText key={`${file}${group.value}`} file={file} />}
        </>
      )}
    </>
  );
}

function Groups(): JSX.Element {
  return (
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
          {all.value.get(one)?.some((subject) => edited(edits.value, subject)) && <em>edited</em>}
        </button>
      ))}
    </div>
  );
}

/** After something was made, its form is shown, and focus is in it. */
function showMade(id: string): void {
  const [file = "", path = ""] = id.split(":");
  const of = groupOf(file, path.split("."));
  focusNext(isDrink(id) ? "[data-another]" : ".bench-sheets .field :is(input, select)");
  batch(() => {
    group.value = of;
    choose(of, id);
  });
  told.value = isDrink(id) ? `${drinkOfFile(id)} is made and can be edited.` : "It is put in.";
}

export function Forms(): JSX.Element {
  useWantedFocus();
  const held = desk.value;
  if (!held) return <section class="bench-forms" aria-label="What to edit" />;
  const now = all.value.get(group.value) ?? [];
  const wanted = chosenId();
  const subject = now.find((one) => one.id === wanted) ?? now[0];
  const kinds = kindsIn(held.book.shapes, group.value);
  const [kind] = kinds;
  return (
    <section class="bench-forms" aria-label="What to edit">
      <Groups />
      <div class="bench-subject">
        <select
          aria-label={group.value}
          value={subject?.id ?? ""}
          onChange={(event) => choose(group.value, event.currentTarget.value)}
        >
          {now.map((one) => (
            <option key={one.id} value={one.id}>
              {capital(one.name)}
              {edited(edits.value, one) ? " (edited)" : ""}
            </option>
          ))}
        </select>
        {kind && (
          <button
            type="button"
            onClick={() => {
              making.value = { what: "thing", kinds, near: subject?.sheets[0]?.path.join(".") ?? "" };
            }}
          >
            New …
          </button>
        )}
      </div>
      <div class="bench-sheets">{subject && <SubjectForms key={subject.id} subject={subject} />}</div>
      <p class="unseen" role="status">
        {told.value}
      </p>
      <MakingPanel onMade={showMade} />
    </section>
  );
}
