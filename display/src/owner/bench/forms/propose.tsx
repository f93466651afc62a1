/** Proposals for the sizes that are not written: looked through, chosen among, and written as edits. */
import { signal } from "@preact/signals";
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import { reason, send } from "../../../link/api";
import { Dialog } from "../../../parts/dialog";
import type { OfferedAmount, Proposed, ProposedAmount } from "../../../wire.gen";
import { counted, listed } from "../../../words/words";
import { acceptAll } from "../../book/amounts";
import { desk, edit, edits } from "../../book/data";
import { toSend } from "../../book/sending";
import { drinkOfFile } from "../../book/subjects";
import { signed } from "../outcome/diff";
import { told } from "./sheet";

/** The drink's file that proposals are asked for; null while the panel is closed. */
export const proposing = signal<{ readonly file: string; readonly name: string } | null>(null);

/** What is asked for. */
interface Asked {
  readonly every: boolean;
  readonly anew: boolean;
}

/** What has been decided of a row: whether it is written, and which of its offers. */
interface Decision {
  readonly write: boolean;
  readonly text: string;
}

const keyOf = (row: ProposedAmount): string => [row.drink, row.step, row.size, row.hot].join(" ");

function offersOf(row: ProposedAmount): OfferedAmount[] {
  return [row.best, ...row.others];
}

/** How far off proportion, in words. */
function offWords(error: number): string {
  return error === 0 ? "exact" : signed(error);
}

function offerWords(offer: OfferedAmount): string {
  return `${offer.text} (${offWords(offer.error_pct)}, ${offer.seconds.toFixed(1)} s)`;
}

function alikeWords(offer: OfferedAmount): string {
  const groups = offer.alike.map((levels) => listed(levels.map((level) => `${level} %`)));
  return groups.length === 0 ? "" : `The same sugar: ${groups.join("; ")}`;
}

interface RowProps {
  readonly row: ProposedAmount;
  readonly decision: Decision;
  readonly named: boolean;
  readonly onChange: (decision: Decision) => void;
}

function Row({ row, decision, named, onChange }: RowProps): JSX.Element {
  const offer = offersOf(row).find((one) => one.text === decision.text) ?? row.best;
  const what = `${row.name}${row.hot ? ", hot" : ""}`;
  const called = `${named ? `${row.drink_name}, ` : ""}${what}, ${row.size_name}`;
  const alike = alikeWords(offer);
  return (
    <tr>
      <td>
        <label class="propose-tick">
          <input
            type="checkbox"
            checked={decision.write}
            aria-label={`Write ${called}`}
            onChange={(event) => onChange({ ...decision, write: event.currentTarget.checked })}
          />
        </label>
      </td>
      {named && <th scope="row">{row.drink_name}</th>}
      <th scope={named ? undefined : "row"}>
        <small>{row.step + 1}</small> {what}
      </th>
      <td>{row.size_name}</td>
      <td>
        {row.wanted}
        {row.written !== null && <small>written: {row.written}</small>}
      </td>
      <td>
        <select
          aria-label={`Amount of ${called}`}
          value={decision.text}
          onChange={(event) => onChange({ write: true, text: event.currentTarget.value })}
        >
          {offersOf(row).map((one) => (
            <option key={one.text} value={one.text}>
              {offerWords(one)}
            </option>
          ))}
        </select>
        {row.lowered && <small>The nearest would not fit the cup or the vessel.</small>}
        {alike && <small>{alike}</small>}
      </td>
      <td class="figures">{offWords(offer.error_pct)}</td>
      <td class="figures">{offer.seconds.toFixed(1)} s</td>
    </tr>
  );
}

/** Proposals as asked for, anew for each edit; undefined while they are coming. */
function useProposed(file: string, { every, anew }: Asked): { got: Proposed | undefined; wrong: string } {
  const [found, setFound] = useState<{ got: Proposed | undefined; wrong: string }>({
    got: undefined,
    wrong: "",
  });
  useEffect(() => {
    const stale = new AbortController();
    setFound({ got: undefined, wrong: "" });
    const body = { edits: toSend(edits.peek()), drinks: every ? null : [drinkOfFile(file)], anew };
    send<Proposed>("/api/owner/propose", body, { signal: stale.signal }).then(
      (got) => setFound({ got, wrong: "" }),
      (error: unknown) => {
        if (!stale.signal.aborted) setFound({ got: undefined, wrong: reason(error) });
      },
    );
    return () => stale.abort();
  }, [file, every, anew]);
  return found;
}

interface TableProps {
  readonly rows: readonly ProposedAmount[];
  readonly named: boolean;
  /** Whether all rows are to be written at first. */
  readonly ticked: boolean;
  readonly onDone: () => void;
}

function Table({ rows, named, ticked, onDone }: TableProps): JSX.Element {
  const [decided, setDecided] = useState<ReadonlyMap<string, Decision>>(new Map());
  const of = (row: ProposedAmount): Decision =>
    decided.get(keyOf(row)) ?? { write: ticked, text: row.best.text };
  const chosen = rows.filter((row) => of(row).write);
  const all = (write: boolean): void =>
    setDecided(new Map(rows.map((row) => [keyOf(row), { ...of(row), write }])));
  const write = (): void => {
    const now = desk.peek();
    if (now)
      edit(
        acceptAll(
          now,
          chosen.map((row) => ({ row, text: of(row).text })),
        ),
      );
    told.value = `${counted(chosen.length, "amount")} written, to be saved.`;
    onDone();
  };
  return (
    <>
      <div class="scroll-x propose-rows">
        <table class="ledger">
          <thead>
            <tr>
              <th scope="col">Write</th>
              {named && <th scope="col">Drink</th>}
              <th scope="col">Step</th>
              <th scope="col">Size</th>
              <th scope="col">In proportion</th>
              <th scope="col">Proposed</th>
              <th scope="col" class="figures">
                Off
              </th>
              <th scope="col" class="figures">
                Hands
              </th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <Row
                key={keyOf(row)}
                row={row}
                decision={of(row)}
                named={named}
                onChange={(decision) => setDecided(new Map([...decided, [keyOf(row), decision]]))}
              />
            ))}
          </tbody>
        </table>
      </div>
      <div class="buttons">
        <p class="propose-count">{counted(rows.length, "proposal")}</p>
        <button type="button" class="plain" onClick={() => all(chosen.length < rows.length)}>
          {chosen.length < rows.length ? "Tick all" : "Tick none"}
        </button>
        <button type="button" class="go" disabled={chosen.length === 0} onClick={write}>
          Write {counted(chosen.length, "amount")}
        </button>
      </div>
    </>
  );
}

function nothing({ every, anew }: Asked, name: string): string {
  const of = every ? "every drink" : name;
  return anew ? `Every amount of ${of} is what would be proposed.` : `Every size of ${of} is written.`;
}

export function ProposePanel(): JSX.Element | null {
  const open = proposing.value;
  const [asked, setAsked] = useState<Asked>({ every: false, anew: false });
  if (!open) return null;
  return <Panel key={open.file} file={open.file} name={open.name} asked={asked} onAsk={setAsked} />;
}

interface PanelProps {
  readonly file: string;
  readonly name: string;
  readonly asked: Asked;
  readonly onAsk: (asked: Asked) => void;
}

function Panel({ file, name, asked, onAsk }: PanelProps): JSX.Element {
  const { got, wrong } = useProposed(file, asked);
  const close = (): void => {
    proposing.value = null;
  };
  const fault = wrong || (got?.faults[0] ? `The book would be refused: ${got.faults[0].message}` : "");
  return (
    <Dialog title="Propose the other sizes" onClose={close} className="propose">
      <div class="propose-asked" role="group" aria-label="What to propose">
        <label class="propose-tick">
          <input
            type="checkbox"
            checked={asked.every}
            onChange={(event) => onAsk({ ...asked, every: event.currentTarget.checked })}
          />
          all drinks, not {name} alone
        </label>
        <label class="propose-tick">
          <input
            type="checkbox"
            checked={asked.anew}
            onChange={(event) => onAsk({ ...asked, anew: event.currentTarget.checked })}
          />
          sizes that are written, too
        </label>
      </div>
      <p>
        What a hand would measure nearest to proportion of the size that the steps are written for. Taste it
        before you save: what you write is made to the letter.
      </p>
      {fault && (
        <p class="fault" role="alert">
          {fault}
        </p>
      )}
      {!got && !wrong && <p role="status">Working it out …</p>}
      {got && got.faults.length === 0 && got.rows.length === 0 && <p role="status">{nothing(asked, name)}</p>}
      {got && got.rows.length > 0 && (
        <Table
          key={`${asked.every} ${asked.anew}`}
          rows={got.rows}
          named={asked.every}
          ticked={!asked.anew}
          onDone={close}
        />
      )}
    </Dialog>
  );
}
