/** How much a step puts in, size by size, iced and hot: what is written, and in grey what follows. */
import type { JSX } from "preact";
import { useId } from "preact/hooks";
import { type AmountCell, amountsOf, followsAt, sameWhenHot, setCell } from "../../book/amounts";
import { amounts, desk, edit, edits } from "../../book/data";
import { same, setKey } from "../../book/edits";
import type { Sheet } from "../../book/sheets";
import { drinkOfFile, faultAt } from "../../book/subjects";
import { faults, told } from "./sheet";

type Step = Sheet & { readonly list: NonNullable<Sheet["list"]> };

interface CellProps {
  readonly step: Step;
  readonly one: AmountCell;
  readonly size: string;
  readonly column: string;
}

function Cell({ step, one, size, column }: CellProps): JSX.Element {
  const id = useId();
  const held = typeof one.held === "string" ? one.held : "";
  const own = faultAt(faults(), edits.value, step.file, one.path);
  // An amount of the reference size alone is the key itself.
  const fault =
    own ?? (one.reference ? faultAt(faults(), edits.value, step.file, one.path.slice(0, -1)) : undefined);
  const known = amounts.value.drink === drinkOfFile(step.file) ? amounts.value.cells : [];
  const follows = one.held === null ? followsAt(known, step.list.place, one) : "";
  const edited = !step.fresh && !same(one.held, one.written);
  const type = (text: string): void => {
    const now = desk.peek();
    if (now) edit(setCell(now, step, one, text));
  };
  return (
    <td
      data-key={one.path.join(".")}
      class={`${edited ? "field-edited" : ""}${one.held === null ? " amount-follows" : ""}`}
    >
      <div data-key={one.reference ? one.path.slice(0, -1).join(".") : undefined}>
        <input
          type="text"
          autocomplete="off"
          spellcheck={false}
          value={held}
          placeholder={follows || "follows"}
          aria-label={`Amount, ${size}, ${column.toLowerCase()}`}
          aria-describedby={id}
          aria-invalid={fault !== undefined}
          onInput={(event) => type(event.currentTarget.value)}
        />
      </div>
      <small id={id}>
        {fault && <strong class="field-fault">{fault.message}</strong>}
        {edited && (
          <>
            {typeof one.written === "string" ? `was ${one.written}` : "put in"}{" "}
            <button
              type="button"
              class="undo"
              aria-label={`Undo the change of the amount, ${size}, ${column.toLowerCase()}`}
              onClick={() => edit(setKey(edits.peek(), step.file, one.path, one.written, one.written))}
            >
              undo
            </button>
          </>
        )}
        {one.held === null && <span class="unseen">Not written: follows the size of the cup.</span>}
      </small>
    </td>
  );
}

export function AmountGrid({ step }: { step: Step }): JSX.Element | null {
  const held = desk.value;
  const found = held && amountsOf(held, step);
  if (!found) return null;
  const { columns, rows } = found;
  const ownHot = rows.some((row) => row.cells.some((one) => one.key === "hot" && one.held !== null));
  const grey = rows.some((row) => row.cells.some((one) => one.held === null));
  return (
    <div class="amounts">
      <table>
        <caption class="unseen">How much, by size</caption>
        <thead>
          <tr>
            <th scope="col">How much</th>
            {columns.map((column) => (
              <th scope="col" key={column.key}>
                {column.name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.size}>
              <th scope="row">
                {row.name}
                {row.cells[0]?.reference && <small>written for</small>}
              </th>
              {row.cells.map((one, index) => (
                <Cell
                  key={one.key}
                  step={step}
                  one={one}
                  size={row.name}
                  column={columns[index]?.name ?? ""}
                />
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      <p class="sheet-help">
        {grey &&
          "Grey is not written: it follows the cup, or where nothing is written hot, the iced drink. Type to write it. "}
        Such as “2 scoops”, “14 ml” or “18 g”.
      </p>
      {ownHot && columns.length > 1 && (
        <button
          type="button"
          class="plain"
          onClick={() => {
            const now = desk.peek();
            if (now) edit(sameWhenHot(now, step));
            told.value = "The hot drink takes the same amounts as the iced one.";
          }}
        >
          Hot takes the same
        </button>
      )}
    </div>
  );
}
