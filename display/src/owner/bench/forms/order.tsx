/** The order of the menu: what stands first on the register and on the cards, moved by touch or key. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import type { Option } from "../../../wire.gen";
import { capital } from "../../../words/words";
import { desk, edit, edits } from "../../book/data";
import { moveThing, type Row, rowsOf } from "../../book/order";
import { focusNext } from "../focus";
import { told } from "./sheet";

const idOfRow = (row: Row): string => `${row.file}:${row.path.join(".")}`;

type Back = "up" | "down" | "name";

function move(row: Row, thing: Option, by: -1 | 1, back: Back): void {
  const next = moveThing(edits.peek(), row, thing.value, by);
  if (next === edits.peek()) return;
  const place = row.things.findIndex(({ value }) => value === thing.value) + by;
  const inRow = `[data-order="${CSS.escape(idOfRow(row))}"] [data-thing="${CSS.escape(thing.value)}"]`;
  focusNext(`${inRow} [data-move="${back}"]`);
  edit(next);
  told.value = `${capital(thing.name)}: ${place + 1} of ${row.things.length}.`;
}

interface ThingProps {
  readonly row: Row;
  readonly thing: Option;
  readonly place: number;
}

function Arrow({ row, thing, place, up }: ThingProps & { readonly up: boolean }): JSX.Element {
  const end = up ? 0 : row.things.length - 1;
  return (
    <button
      type="button"
      class="plain"
      data-move={up ? "up" : "down"}
      aria-label={`Move ${up ? "up" : "down"}: ${capital(thing.name)}`}
      aria-disabled={place === end}
      onClick={() => move(row, thing, up ? -1 : 1, up ? "up" : "down")}
    >
      <svg viewBox="0 0 12 12" aria-hidden="true">
        <path d={up ? "M6 1 L11.5 11 H0.5 Z" : "M6 11 L0.5 1 H11.5 Z"} />
      </svg>
    </button>
  );
}

function Thing({ row, thing, place }: ThingProps): JSX.Element {
  return (
    <li class="order-thing" data-thing={thing.value}>
      <button
        type="button"
        class="order-name"
        data-move="name"
        aria-keyshortcuts="Alt+ArrowUp Alt+ArrowDown"
        onKeyDown={(event) => {
          if (!event.altKey || (event.key !== "ArrowUp" && event.key !== "ArrowDown")) return;
          event.preventDefault();
          move(row, thing, event.key === "ArrowUp" ? -1 : 1, "name");
        }}
      >
        <b class="step-number">{place + 1}</b> {capital(thing.name)}
      </button>
      <span class="step-moves">
        <Arrow row={row} thing={thing} place={place} up />
        <Arrow row={row} thing={thing} place={place} up={false} />
      </span>
    </li>
  );
}

function Things({ row, open }: { row: Row; open: boolean }): JSX.Element {
  const [opened, setOpened] = useState(open);
  return (
    <details
      class="sheet-form"
      data-order={idOfRow(row)}
      open={opened}
      onToggle={(event) => setOpened(event.currentTarget.open)}
    >
      <summary>
        <span class="sheet-title">{row.name}</span>
      </summary>
      {row.counter && (
        <p class="sheet-help">
          The order of the work: the steps of a drink are told in it, so look at the build.
        </p>
      )}
      <ol class="order" aria-label={row.name}>
        {row.things.map((thing, place) => (
          <Thing key={thing.value} row={row} thing={thing} place={place} />
        ))}
      </ol>
    </details>
  );
}

/** Everything that stands in an order; a row with one thing in it has none to choose. */
export function MenuOrder(): JSX.Element | null {
  const held = desk.value;
  if (!held) return null;
  const rows = rowsOf(held).filter((row) => row.things.length > 1);
  return (
    <>
      <p class="sheet-help">
        As the register, the recipe cards and the allergen sheet have it. Alt with the up or down arrow moves
        what has focus, too.
      </p>
      {rows.map((row, index) => (
        <Things key={idOfRow(row)} row={row} open={index === 0} />
      ))}
    </>
  );
}
