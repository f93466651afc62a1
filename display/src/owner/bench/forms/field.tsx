/** One key of the book as a field: its help, what it takes, what the owner wrote beside it, its fault. */
import type { JSX } from "preact";
import { useId } from "preact/hooks";
import type { BookFault, Option } from "../../../wire.gen";
import { listed } from "../../../words/words";
import type { Scalar } from "../../book/edits";
import type { FieldForm } from "../../book/sheets";
import { keyName } from "../../book/subjects";

interface FieldProps {
  readonly entry: FieldForm;
  readonly options: readonly Option[];
  /** What the field holds with the edits made. */
  readonly value: Scalar;
  readonly fault: BookFault | undefined;
  /** An edited key can be taken back; one that is put in anew cannot. */
  readonly onChange: (value: Scalar) => void;
  readonly edited: boolean;
}

interface ControlProps {
  readonly id: string;
  readonly entry: FieldForm;
  readonly options: readonly Option[];
  readonly value: Scalar;
  readonly described: string;
  readonly wrong: boolean;
  readonly onChange: (value: Scalar) => void;
}

const LEFT_OUT = "";

/** What stands in a field that says nothing: its help tells what holds then. */
const NOTHING_SAID = "nothing said";

/** What a field is called. */
export function nameOf(entry: Pick<FieldForm, "key" | "label">): string {
  return entry.label ?? keyName(entry.key);
}

function Choice({
  id,
  entry,
  options: offered,
  value,
  described,
  wrong,
  onChange,
}: ControlProps): JSX.Element {
  const yesNo = entry.kind === "yes/no";
  const options = yesNo
    ? [
        { value: "yes", name: "yes" },
        { value: "no", name: "no" },
      ]
    : offered;
  let held = LEFT_OUT;
  if (typeof value === "boolean") held = value ? "yes" : "no";
  else if (typeof value === "string") held = value;
  const known = held === LEFT_OUT || options.some((option) => option.value === held);
  return (
    <select
      id={id}
      value={held}
      aria-describedby={described}
      aria-invalid={wrong}
      onChange={(event) => {
        const chosen = event.currentTarget.value;
        if (chosen === LEFT_OUT) onChange(null);
        else onChange(yesNo ? chosen === "yes" : chosen);
      }}
    >
      {(!entry.needed || held === LEFT_OUT) && <option value={LEFT_OUT}>– {NOTHING_SAID} –</option>}
      {!known && <option value={held}>{held}</option>}
      {options.map((option) => (
        <option key={option.value} value={option.value}>
          {option.name}
        </option>
      ))}
    </select>
  );
}

function Several({ id, entry, options, value, described, onChange }: ControlProps): JSX.Element {
  const held = Array.isArray(value) ? value : [];
  const names = held.map((one) => options.find((option) => option.value === one)?.name ?? one);
  const said = value === null ? `– ${NOTHING_SAID} –` : listed(names) || "none";
  return (
    <details class="several" id={id}>
      <summary aria-describedby={described} aria-label={`${nameOf(entry)}: ${said}`}>
        {said}
      </summary>
      <div class="several-list" role="group" aria-label={nameOf(entry)}>
        {options.map((option) => (
          <label key={option.value}>
            <input
              type="checkbox"
              checked={held.includes(option.value)}
              onChange={(event) => {
                const others = held.filter((one) => one !== option.value);
                onChange(event.currentTarget.checked ? [...others, option.value] : others);
              }}
            />
            {option.name}
          </label>
        ))}
        {!entry.needed && (
          <button type="button" class="plain" disabled={value === null} onClick={() => onChange(null)}>
            Say nothing here
          </button>
        )}
      </div>
    </details>
  );
}

function Written({ id, entry, value, described, wrong, onChange }: ControlProps): JSX.Element {
  return (
    <input
      id={id}
      type="text"
      autocomplete="off"
      spellcheck={false}
      inputMode={entry.kind === "price" ? "decimal" : "text"}
      value={typeof value === "string" ? value : ""}
      placeholder={value === null ? NOTHING_SAID : ""}
      aria-describedby={described}
      aria-invalid={wrong}
      onInput={(event) => {
        const text = event.currentTarget.value;
        onChange(text === "" && !entry.needed ? null : text);
      }}
    />
  );
}

function control(props: ControlProps): JSX.Element {
  switch (props.entry.kind) {
    case "choice":
    case "yes/no":
      return <Choice {...props} />;
    case "list":
      return <Several {...props} />;
    default:
      return <Written {...props} />;
  }
}

/** A value in words: that of a choice by its name. */
function shown(value: Scalar, options: readonly Option[]): string {
  const named = (one: string): string => options.find((option) => option.value === one)?.name ?? one;
  if (value === null) return NOTHING_SAID;
  if (typeof value === "boolean") return value ? "yes" : "no";
  return Array.isArray(value) ? listed(value.map(named)) || "none" : named(value);
}

/** What is wrong at a field. What a choice accepts stands in its list, so that is not told again. */
export function faultWords(fault: BookFault, entry: Pick<FieldForm, "kind">, value: Scalar): string {
  if (entry.kind !== "choice" && entry.kind !== "list") return fault.message;
  if (value === null) return "Choose one.";
  return fault.message.split("; accepted:")[0] ?? fault.message;
}

export function Field({ entry, options, value, fault, onChange, edited }: FieldProps): JSX.Element {
  const id = useId();
  const help = `${id}-help`;
  return (
    <div
      data-key={entry.path.join(".")}
      class={`field${edited ? " field-edited" : ""}${fault ? " field-wrong" : ""}`}
    >
      <label for={id}>{nameOf(entry)}</label>
      {control({ id, entry, options, value, described: help, wrong: fault !== undefined, onChange })}
      <p id={help}>
        {fault && <strong class="field-fault">{faultWords(fault, entry, value)}</strong>}
        {edited && (
          <span class="field-was">
            was {shown(entry.value, options)}{" "}
            <button
              type="button"
              class="undo"
              aria-label={`Undo the change of ${nameOf(entry)}`}
              onClick={() => onChange(entry.value)}
            >
              undo
            </button>
          </span>
        )}
        {!fault && entry.help && (
          <span>
            {entry.help}
            {entry.kind === "quantity" ? `: ${entry.accepted}` : ""}
          </span>
        )}
        {entry.comment && entry.comment !== entry.help && <span class="field-note">“{entry.comment}”</span>}
      </p>
    </div>
  );
}
