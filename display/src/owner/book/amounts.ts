/** A step's amounts by size, iced and hot: what is written, what a cell stands for, and how it is edited. Pure. */
import type { CellAmount, ProposedAmount } from "../../wire.gen";
import { type Edits, heldAt, type Path, type Scalar, setKey } from "./edits";
import { optionsOf } from "./offers";
import { type Desk, type Sheet, sheetsOf } from "./sheets";

/** The keys of a step that hold an amount by size. */
export type AmountKey = "amount" | "hot";
const KEYS: readonly AmountKey[] = ["amount", "hot"];

/** One amount: of a size, iced or hot. */
export interface AmountCell {
  readonly key: AmountKey;
  readonly size: string;
  readonly path: Path;
  /** What the file holds, and what it holds with the edits made; null where nothing is written. */
  readonly written: Scalar;
  readonly held: Scalar;
  /** Of the size that the steps are written for: it cannot be left out. */
  readonly reference: boolean;
}

/** A size with its amounts, one for each column. */
export interface AmountRow {
  readonly size: string;
  readonly name: string;
  readonly cells: readonly AmountCell[];
}

export interface Amounts {
  readonly columns: readonly { readonly key: AmountKey; readonly name: string }[];
  readonly rows: readonly AmountRow[];
}

/** Whether a key of a step, or a table in it, is an amount by size. */
export function isAmount(key: string | number | undefined): boolean {
  return key === "amount" || key === "hot";
}

function root(desk: Desk, file: string, key: string): Scalar {
  const tables = desk.book.files.find((one) => one.file === file)?.tables ?? [];
  const top = tables.find((one) => one.path.length === 0);
  return heldAt(desk.edits, file, [key], top?.entries.find((one) => one.key === key)?.value ?? null);
}

/** The size that a drink's steps are written for. */
function referenceOf(desk: Desk, file: string): string {
  const size = root(desk, file, "size");
  return typeof size === "string" ? size : "";
}

function writtenIn(sheet: Sheet, key: string): Scalar {
  return sheet.fields.find((one) => one.key === key)?.value ?? null;
}

function heldIn(desk: Desk, sheet: Sheet, key: string): Scalar {
  return heldAt(desk.edits, sheet.file, [...sheet.path, key], writtenIn(sheet, key));
}

function cell(desk: Desk, step: Sheet, key: AmountKey, size: string, reference: string): AmountCell {
  const path: Path = [...step.path, key, size];
  const inner = step.inner.find((one) => one.path.at(-1) === key);
  const lone = size === reference ? writtenIn(step, key) : null;
  const written = inner?.fields.find((one) => one.key === size)?.value ?? lone;
  const held = heldAt(desk.edits, step.file, path, written);
  return { key, size, path, written, held, reference: size === reference };
}

/** The sizes of a drink that have a price, and those that an amount is written for. */
function sizesOf(desk: Desk, step: Sheet): { value: string; name: string }[] {
  const prices = desk.book.files
    .find((one) => one.file === step.file)
    ?.tables.find((one) => one.path.length === 1 && one.path[0] === "prices");
  const priced = (size: string): boolean => {
    const before = prices?.entries.find((one) => one.key === size)?.value ?? null;
    return heldAt(desk.edits, step.file, ["prices", size], before) !== null;
  };
  const reference = referenceOf(desk, step.file);
  const named = (size: string): boolean =>
    KEYS.some((key) => cell(desk, step, key, size, reference).held !== null);
  return optionsOf(desk.book, desk.edits, "sizes").filter(({ value }) => priced(value) || named(value));
}

/** Whether the drink is sold iced, and hot. */
function soldAs(desk: Desk, file: string): { iced: boolean; hot: boolean } {
  const ices = root(desk, file, "ices");
  return { iced: !Array.isArray(ices) || ices.length > 0, hot: root(desk, file, "hot") === true };
}

function columnsOf(desk: Desk, step: Sheet, rows: readonly AmountRow[]): Amounts["columns"] {
  const { iced, hot } = soldAs(desk, step.file);
  const when = heldIn(desk, step, "when");
  const ice = heldIn(desk, step, "do") === "ice";
  const onlyHot = when === "hot" || !iced;
  const second = hot && iced && when !== "iced" && when !== "hot" && !ice;
  const there = rows.some((row) => row.cells.some((one) => one.key === "hot" && one.held !== null));
  const first = { key: "amount", name: onlyHot ? "Hot" : "Iced" } as const;
  return second || there ? [first, { key: "hot", name: onlyHot ? "Hot, by itself" : "Hot" }] : [first];
}

/** The amounts of a step, sizes down, iced and hot across; undefined for work that puts nothing in. */
export function amountsOf(desk: Desk, step: Sheet): Amounts | undefined {
  const reference = referenceOf(desk, step.file);
  const all = sizesOf(desk, step).map(({ value, name }) => ({
    size: value,
    name,
    cells: KEYS.map((key) => cell(desk, step, key, value, reference)),
  }));
  const puts = heldIn(desk, step, "what") !== null;
  if (!puts && !all.some((row) => row.cells.some((one) => one.held !== null))) return undefined;
  const columns = columnsOf(desk, step, all);
  const rows = all.map((row) => ({
    ...row,
    cells: row.cells.filter((one) => columns.some((column) => column.key === one.key)),
  }));
  return { columns, rows };
}

/** What a step is seen by while it is closed: its amount at the size that it is written for. */
export function usualAmount(desk: Desk, step: Sheet): string {
  const reference = referenceOf(desk, step.file);
  const { held } = cell(desk, step, "amount", reference, reference);
  return typeof held === "string" ? held : "";
}

/**
 * Types into a cell; nothing typed takes it out, but for the reference, whose fault is told. The first hot amount
 * of a step takes over the iced ones that are written, so that the other sizes stay as they are.
 */
export function setCell(desk: Desk, step: Sheet, one: AmountCell, text: string): Edits {
  const value = text === "" && !(one.reference && one.key === "amount") ? null : text;
  const { rows } = amountsOf(desk, step) ?? { rows: [] };
  const cells = rows.flatMap((row) => row.cells);
  const first =
    one.key === "hot" && value !== null && cells.every(({ key, held }) => key !== "hot" || held === null);
  const taken = first
    ? cells.filter(({ key, held, size }) => key === "amount" && held !== null && size !== one.size)
    : [];
  const begun = taken.reduce((edits, iced) => {
    const hot = cell(desk, step, "hot", iced.size, referenceOf(desk, step.file));
    return setKey(edits, step.file, hot.path, iced.held, hot.written);
  }, desk.edits);
  return setKey(begun, step.file, one.path, value, one.written);
}

/** Takes all hot amounts of a step out: the hot drink then takes what the iced one takes. */
export function sameWhenHot(desk: Desk, step: Sheet): Edits {
  const { rows } = amountsOf(desk, step) ?? { rows: [] };
  return rows
    .flatMap((row) => row.cells)
    .filter(({ key, held }) => key === "hot" && held !== null)
    .reduce((edits, one) => setKey(edits, step.file, one.path, null, one.written), desk.edits);
}

/** What a cell comes to by the last trial, in the words of its tool; empty where that is not known. */
export function followsAt(known: readonly CellAmount[], place: number, one: AmountCell): string {
  const hot = one.key === "hot";
  return known.find((each) => each.step === place && each.size === one.size && each.hot === hot)?.text ?? "";
}

/** A proposal that was accepted, with the text to write. */
export interface Accepted {
  readonly row: ProposedAmount;
  readonly text: string;
}

/** The edits with proposals written in; each finds its step where that stands by now. */
export function acceptAll(desk: Desk, accepted: readonly Accepted[]): Edits {
  return accepted.reduce((edits, { row, text }) => {
    const now = { ...desk, edits };
    const name = `drinks/${row.drink}.toml`;
    const file = desk.book.files.find((one) => one.file === name);
    const step = file && sheetsOf(now, file).find((one) => one.list?.place === row.step);
    if (!step) return edits;
    const one = cell(now, step, row.hot ? "hot" : "amount", row.size, referenceOf(now, name));
    return setKey(edits, name, one.path, text, one.written);
  }, desk.edits);
}
