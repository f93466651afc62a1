/** One key of the book as a field: its help, what it takes, what the owner wrote beside it, its fault. */
import type { JSX } from "preact";
import { useId } from "preact/hooks";
import type { BookFault, Entry } from "../wire.gen";
import { listed } from "../words";
import type { Scalar } from "./edits";
import { keyName } from "./subjects";

interface FieldProps {
  readonly entry: Entry;
  /** What the field holds with the edits made. */
  readonly value: Scalar;
  readonly fault: BookFault | undefined;
  /** An edited key can be taken back; one that is put in anew cannot. */
  readonly onChange: (value: Scalar) => void;
  readonly edited: boolean;
  readonly label?: string;
}

interface ControlProps {
  readonly id: string;
  readonly entry: Entry;
  readonly value: Scalar;
  readonly described: string;
  readonly wrong: boolean;
  readonly onChange: (value: Scalar) => void;
}

const LEFT_OUT = "";

function Choice({ id, entry, value, described, wrong, onChange }: ControlProps): JSX.Element {
  const yesNo = entry.kind === "yes/no";
  const options = yesNo
    ? [
        { value: "yes", name: "yes" },
        { value: "no", name: "no" },
      ]
    : entry.options;
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
      {(!entry.needed || held === LEFT_OUT) && <option value={LEFT_OUT}>– not written –</option>}
      {!known && <option value={held}>{held}</option>}
      {options.map((option) => (
        <option key={option.value} value={option.value}>
          {option.name}
        </option>
      ))}
    </select>
  );
}

function Several({ id, entry, value, described, onChange }: ControlProps): JSX.Element {
  const held = Array.isArray(value) ? value : [];
  const names = held.map((one) => entry.options.find((option) => option.value === one)?.name ?? one);
  const said = value === null ? "– not written –" : listed(names) || "none";
  return (
    <details class="several" id={id}>
      <summary aria-describedby={described} aria-label={`${keyName(entry.key)}: ${said}`}>
        {said}
      </summary>
      <div class="several-list" role="group" aria-label={keyName(entry.key)}>
        {entry.options.map((option) => (
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
            Take the key out
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
      placeholder={value === null ? "not written" : ""}
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

function shown(value: Scalar): string {
  if (value === null) return "not written";
  if (typeof value === "boolean") return value ? "yes" : "no";
  return Array.isArray(value) ? listed(value) || "none" : value;
}

export function Field({ entry, value, fault, onChange, edited, label }: FieldProps): JSX.Element {
  const id = useId();
  const help = `${id}-help`;
  return (
    <div class={`field${edited ? " field-edited" : ""}${fault ? " field-wrong" : ""}`}>
      <label for={id}>{label ?? keyName(entry.key)}</label>
      {control({ id, entry, value, described: help, wrong: fault !== undefined, onChange })}
      <p id={help}>
        {fault && <strong class="field-fault">{fault.message}</strong>}
        {edited && (
          <span class="field-was">
            was {shown(entry.value)}{" "}
            <button
              type="button"
              class="undo"
              aria-label={`Undo the change of ${keyName(entry.key)}`}
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
