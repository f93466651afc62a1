/** Prices in rows: one for each thing that has any, a field for each of its prices. */
import type { JSX } from "preact";
import type { BookFault } from "../../../wire.gen";
import { capital } from "../../../words/words";
import { edit, edits } from "../../book/data";
import { heldAt, same, setKey } from "../../book/edits";
import type { FieldForm, Sheet } from "../../book/sheets";
import { faultAt } from "../../book/subjects";
import { tryDrinkOf } from "../chosen";
import { Raise } from "./raise";

function Price({
  sheet,
  entry,
  faults,
}: {
  sheet: Sheet;
  entry: FieldForm;
  faults: readonly BookFault[];
}): JSX.Element {
  const { file } = sheet;
  const value = heldAt(edits.value, file, entry.path, entry.value);
  const changed = !same(value, entry.value);
  const fault = faultAt(faults, edits.value, file, entry.path);
  return (
    <label class={changed ? "field-edited" : ""}>
      {entry.label ?? entry.key.replaceAll("_", " ")}
      <input
        inputMode="decimal"
        onFocus={() => tryDrinkOf(file)}
        autocomplete="off"
        value={typeof value === "string" ? value : ""}
        placeholder="none"
        aria-invalid={fault !== undefined}
        onInput={(event) => {
          const text = event.currentTarget.value;
          edit(setKey(edits.peek(), file, entry.path, text === "" ? null : text, entry.value));
        }}
      />
      <small>
        {changed ? `was ${String(entry.value ?? "none")}` : ""}
        {fault && <strong class="field-fault"> {fault.message}</strong>}
      </small>
    </label>
  );
}

export function PriceRows({
  sheets,
  faults,
}: {
  sheets: readonly Sheet[];
  faults: readonly BookFault[];
}): JSX.Element {
  return (
    <div class="price-rows">
      <Raise sheets={sheets} />
      {sheets.map((sheet) => (
        <fieldset key={`${sheet.file}${sheet.path.join(".")}`}>
          <legend>{capital(sheet.title)}</legend>
          {sheet.fields.map((entry) => (
            <Price key={entry.key} sheet={sheet} entry={entry} faults={faults} />
          ))}
        </fieldset>
      ))}
    </div>
  );
}
