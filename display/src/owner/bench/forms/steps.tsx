/** The steps of a recipe: each opens as a form; moved by button or key, taken out, put in. */
import type { JSX } from "preact";
import { useId, useState } from "preact/hooks";
import { isAmount, usualAmount } from "../../book/amounts";
import { desk, edit, edits } from "../../book/data";
import { heldAt, type Values } from "../../book/edits";
import { type List, moveItem, putItem, toggleItem } from "../../book/places";
import type { Sheet } from "../../book/sheets";
import { faultIn, keyName } from "../../book/subjects";
import { focusNext } from "../focus";
import { AmountGrid } from "./amounts";
import { proposing } from "./propose";
import { Entries, faults, idOfSheet, inSheet, Marks, SheetFault, SheetForm, told } from "./sheet";

type Listed = Sheet & { readonly list: NonNullable<Sheet["list"]> };

function isListed(sheet: Sheet): sheet is Listed {
  return sheet.list !== undefined;
}

const text = (sheet: Sheet, key: string): string => {
  const field = sheet.fields.find((one) => one.key === key);
  const value = field ? heldAt(edits.value, sheet.file, field.path, field.value) : null;
  return typeof value === "string" ? value : "";
};

/** What a step is seen by while it is closed: its amount or how long it takes, and when it is done. */
function detail(sheet: Sheet): string {
  const when = text(sheet, "when");
  const held = desk.value;
  return [(held ? usualAmount(held, sheet) : "") || text(sheet, "time"), when === "" ? "" : `only ${when}`]
    .filter((word) => word !== "" && word !== "only always")
    .join(", ");
}

/** A step without what its grid of amounts shows. */
function withoutAmounts(sheet: Listed): Listed {
  const fields = sheet.fields.filter((one) => !isAmount(one.key));
  return { ...sheet, fields, inner: sheet.inner.filter((one) => !isAmount(one.path.at(-1))) };
}

/** What a new step begins with: the station of the one before it, and its hands' work to be chosen. */
function begun(after: Sheet | undefined): Values {
  const station = after ? text(after, "station") : "";
  return station === "" ? {} : { station };
}

function putAfter(list: List, after: Listed | undefined): void {
  const next = putItem(edits.peek(), list, after?.list.key ?? null, begun(after));
  const made = { file: list.file, path: [...list.path, next.fresh] };
  focusNext(`${inSheet(made, ".field select")}`);
  edit(next.edits);
  told.value = "A step is put in. Say what it does.";
}

function Moves({ sheet }: { sheet: Listed }): JSX.Element {
  const { place, length } = sheet.list;
  const name = `Step ${place + 1}, ${sheet.title}`;
  return (
    <span class="step-moves">
      <button
        type="button"
        class="plain"
        data-move="up"
        aria-label={`Move up: ${name}`}
        aria-disabled={place === 0}
        onClick={() => move(sheet, -1, "up")}
      >
        <svg viewBox="0 0 12 12" aria-hidden="true">
          <path d="M6 1 L11.5 11 H0.5 Z" />
        </svg>
      </button>
      <button
        type="button"
        class="plain"
        data-move="down"
        aria-label={`Move down: ${name}`}
        aria-disabled={place === length - 1}
        onClick={() => move(sheet, 1, "down")}
      >
        <svg viewBox="0 0 12 12" aria-hidden="true">
          <path d="M6 11 L0.5 1 H11.5 Z" />
        </svg>
      </button>
    </span>
  );
}

function move(sheet: Listed, by: -1 | 1, back: "up" | "down" | "head"): void {
  const { list } = sheet;
  const place = list.place + by;
  if (place < 0 || place >= list.length) return;
  focusNext(inSheet(sheet, back === "head" ? ".step-open" : `[data-move="${back}"]`));
  edit(moveItem(edits.peek(), list, list.key, by));
  told.value = `${sheet.title}: step ${place + 1} of ${list.length}.`;
}

function takeOut(sheet: Listed, above: Listed | undefined): void {
  if (sheet.fresh) focusNext(above ? inSheet(above, ".step-open") : ".step-open");
  else focusNext(inSheet(sheet, "[data-take-out]"));
  edit(toggleItem(edits.peek(), sheet.list, sheet.list.key));
  told.value = sheet.out ? "The step stays." : "The step is taken out.";
}

function Step({ sheet, above }: { sheet: Listed; above: Listed | undefined }): JSX.Element {
  const [opened, setOpened] = useState(sheet.fresh);
  const panel = useId();
  const wrong = faultIn(faults(), edits.value, sheet) !== undefined;
  const open = (opened || wrong) && !sheet.out;
  const number = sheet.out ? "–" : `${sheet.list.place + 1}`;
  return (
    <li
      class={`step-form${sheet.out ? " sheet-gone" : ""}${sheet.fresh ? " sheet-added" : ""}`}
      data-sheet={idOfSheet(sheet)}
    >
      <div class="step-head">
        <button
          type="button"
          class="step-open"
          aria-expanded={open}
          aria-controls={panel}
          aria-keyshortcuts="Alt+ArrowUp Alt+ArrowDown"
          onClick={() => setOpened(!open)}
          onKeyDown={(event) => {
            if (!event.altKey || (event.key !== "ArrowUp" && event.key !== "ArrowDown")) return;
            event.preventDefault();
            if (!sheet.out) move(sheet, event.key === "ArrowUp" ? -1 : 1, "head");
          }}
        >
          <b class="step-number">{number}</b>
          <span class="sheet-title">
            {keyName(sheet.title || "say what it does")} <small>{detail(sheet)}</small>
          </span>
          <Marks sheet={sheet} />
        </button>
        {sheet.out ? (
          <button type="button" class="plain" data-take-out onClick={() => takeOut(sheet, above)}>
            Keep it after all
          </button>
        ) : (
          <Moves sheet={sheet} />
        )}
      </div>
      <div
        id={panel}
        class="step-panel"
        hidden={!open}
        // What a fault has opened is not closed under the hand that mends it.
        onFocusCapture={() => setOpened(true)}
      >
        {open && (
          <>
            <SheetFault sheet={sheet} />
            {!sheet.fresh && <AmountGrid step={sheet} />}
            <div role="group" aria-label={`Step ${number}`}>
              <Entries sheet={withoutAmounts(sheet)} />
            </div>
            {sheet.fresh && <AmountGrid step={sheet} />}
            {withoutAmounts(sheet).inner.map((one) => (
              <SheetForm key={one.path.join(".")} sheet={one} open={false} />
            ))}
            <div class="buttons sheet-tools">
              <button type="button" class="plain" data-take-out onClick={() => takeOut(sheet, above)}>
                {sheet.fresh ? "Leave this step out again" : "Take this step out"}
              </button>
              <button type="button" class="plain" onClick={() => putAfter(sheet.list, sheet)}>
                A step after this
              </button>
            </div>
          </>
        )}
      </div>
    </li>
  );
}

/** The steps in their present order, and a way to put the first of them. */
interface StepsProps {
  readonly file: string;
  readonly name: string;
  readonly sheets: readonly Sheet[];
}

export function Steps({ file, name, sheets }: StepsProps): JSX.Element {
  const all = sheets.filter(isListed);
  const first = all[0]?.list;
  const path = first?.path ?? desk.value?.book.shapes.find((one) => one.ordered)?.path ?? ["steps"];
  return (
    <section class="steps" aria-label="Steps">
      <div class="steps-head">
        <h2>Steps</h2>
        <button
          type="button"
          onClick={() => {
            proposing.value = { file, name };
          }}
        >
          Propose the other sizes …
        </button>
      </div>
      <p class="sheet-help">
        In the order in which they are told at each station. Alt with the up or down arrow moves a step, too.
      </p>
      <ol>
        {all.map((sheet, index) => (
          <Step key={String(sheet.list.key)} sheet={sheet} above={all[index - 1]} />
        ))}
      </ol>
      <div class="buttons sheet-tools">
        <button
          type="button"
          class="plain"
          onClick={() => putAfter({ file, path, count: first?.count ?? 0 }, undefined)}
        >
          A step before all
        </button>
      </div>
    </section>
  );
}
