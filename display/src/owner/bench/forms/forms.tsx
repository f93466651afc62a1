/** The left of the bench: what to edit, by subject, and its forms. */
import type { JSX } from "preact";
import type { BookFault } from "../../../wire.gen";
import { capital } from "../../../words/words";
import { desk, edit, edits, editTexts, tried } from "../../book/data";
import { type Edits, isRemoved, toggleTable, withoutFile } from "../../book/edits";
import { ordersEdited, rowsOf } from "../../book/order";
import { editsIn, faultsElsewhere, GROUPS, isDrink, kindsIn, ORDER, type Subject } from "../../book/subjects";
import { MakingPanel, making } from "../anew/making";
import { all, asked, choose, chosen, chosenId, group, showMade } from "../chosen";
import { focusNext, useWantedFocus } from "../focus";
import { TradeOffPanel, weighingHands } from "../tradeoff/tradeoff";
import { FileText } from "./filetext";
import { MenuOrder } from "./order";
import { PriceRows } from "./prices";
import { ProposePanel } from "./propose";
import { faults, SheetForm, told } from "./sheet";
import { Steps } from "./steps";

/** Whether anything in a subject is edited. */
function edited(now: Edits, subject: Subject): boolean {
  if (subject.id === ORDER.id) return desk.value !== undefined && ordersEdited(now, rowsOf(desk.value)) > 0;
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
      {subject.id === ORDER.id && <MenuOrder />}
      {prices && <PriceRows sheets={subject.sheets} faults={refused} />}
      {!prices && isDrink(subject.id) && <DrinkTools subject={subject} />}
      {subject.id === "shop.toml:hands" && (
        <div class="buttons drink-tools">
          <button
            type="button"
            onClick={() => {
              weighingHands.value = true;
            }}
          >
            Taste against hands …
          </button>
        </div>
      )}
      {!prices && !away && (
        <>
          {file && isDrink(file) && (
            <Steps file={file} name={subject.name} sheets={subject.sheets.filter((sheet) => sheet.list)} />
          )}
          {plain.map((sheet) => (
            <SheetForm
              key={`${sheet.file}${sheet.path.join(".")}`}
              sheet={sheet}
              open={!isDrink(sheet.file)}
            />
          ))}
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

export function Forms(): JSX.Element {
  useWantedFocus();
  // Rendered anew when a panel closes, or something is to be shown: then focus goes where it is wanted.
  void making.value;
  void asked.value;
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
      <ProposePanel />
      <TradeOffPanel />
    </section>
  );
}
