/** What there is to edit, by subject rather than by file: drinks, pantry, tools, prices, modifiers, shop. Pure. */
import type { BookFault, BookFile, TableShape } from "../../wire.gen";
import { capital } from "../../words/words";
import { type Edits, type Path, within } from "./edits";
import { pathNow } from "./places";
import { type Desk, type FieldForm, type Sheet, sheetsOf } from "./sheets";

/** The subjects of the bench, in the order of their buttons. */
export const GROUPS = ["Drinks", "Pantry", "Tools", "Prices", "Modifiers", "Shop"] as const;
export type Group = (typeof GROUPS)[number];

/** One thing to edit: a drink, an ingredient, a tool. */
export interface Subject {
  readonly id: string;
  readonly name: string;
  readonly sheets: readonly Sheet[];
}

/** Tables of the shared files, by the first part of their path, and the subject that they belong to. */
const SHOP_GROUPS: Readonly<Record<string, Group>> = {
  tools: "Tools",
  vessels: "Tools",
  sizes: "Tools",
  sugar: "Modifiers",
  ice: "Modifiers",
};

/** The subject that is no table: in which order people see what there is. */
export const ORDER: Subject = { id: "order of the menu", name: "Order of the menu", sheets: [] };

/** Whether a file is a drink's. */
export function isDrink(file: string): boolean {
  return file.startsWith("drinks/");
}

/** The id of a drink's file. */
export function drinkOfFile(file: string): string {
  return file.replace(/^drinks\//, "").replace(/\.toml$/, "");
}

/** A file of the book by its name; a drink that is on the menu no longer by what its file is called. */
export function fileName(files: readonly BookFile[], file: string): string {
  const known = files.find((one) => one.file === file)?.title;
  return known ?? (isDrink(file) ? capital(drinkOfFile(file).replaceAll("_", " ")) : file);
}

/** The group that a table belongs to. */
export function groupOf(file: string, path: Path): Group {
  if (isDrink(file)) return "Drinks";
  if (file === "pantry.toml") return "Pantry";
  if (file === "extras.toml") return "Modifiers";
  return SHOP_GROUPS[String(path[0] ?? "")] ?? "Shop";
}

/** The kinds of things of which more can be put in, in a group: its own tables, not a recipe's steps. */
export function kindsIn(shapes: readonly TableShape[], group: Group): TableShape[] {
  return shapes.filter((one) => one.one !== "" && !one.ordered && groupOf(one.file, one.path) === group);
}

/** The part of a table that has to do with money, or nothing. */
function pricesOf(sheet: Sheet, drink: string | undefined): Sheet | undefined {
  const fields = sheet.fields.filter((field) => field.kind === "price");
  if (fields.length === 0 || sheet.out) return undefined;
  return { ...sheet, title: drink ?? sheet.title, help: "", fields };
}

function priceSubjects(desk: Desk): Subject[] {
  const of = (drinks: boolean): Sheet[] =>
    desk.book.files
      .filter((file) => isDrink(file.file) === drinks)
      .flatMap((file) => {
        const sheets = sheetsOf(desk, file);
        const drink = drinks ? sheets[0]?.title : undefined;
        return sheets.flatMap((sheet) => pricesOf(sheet, drink) ?? []);
      });
  return [
    { id: "prices of drinks", name: "Drinks", sheets: of(true) },
    { id: "prices of modifiers", name: "Toppings, milks and shots", sheets: of(false) },
  ].filter((subject) => subject.sheets.length > 0);
}

/** The subjects of one group, in the order of the book. */
export function subjects(desk: Desk, group: Group): Subject[] {
  if (group === "Prices") return priceSubjects(desk);
  if (group === "Drinks") {
    return desk.book.files
      .filter((file) => isDrink(file.file))
      .map((file) => {
        const sheets = sheetsOf(desk, file);
        return { id: file.file, name: sheets[0]?.title ?? file.title, sheets };
      });
  }
  const tables = desk.book.files
    .filter((file) => !isDrink(file.file))
    .flatMap((file) =>
      sheetsOf(desk, file)
        .filter((sheet) => groupOf(file.file, sheet.path) === group)
        .map((sheet) => ({ id: `${file.file}:${sheet.path.join(".")}`, name: sheet.title, sheets: [sheet] })),
    );
  return group === "Shop" ? [ORDER, ...tables] : tables;
}

/** A path as faults name it: places in a list count from 1. */
export function keyOf(path: Path): string {
  return path.map((part) => (typeof part === "number" ? part + 1 : part)).join(".");
}

/** The fault that stands at a field, if one does; faults name the places that steps have by now. */
export function faultAt(
  faults: readonly BookFault[],
  edits: Edits,
  file: string,
  path: Path,
): BookFault | undefined {
  const now = pathNow(edits, file, path);
  if (!now) return undefined;
  const key = keyOf(now);
  return faults.find((fault) => fault.file === file && fault.key === key);
}

/** The fields of a sheet and of those inside it. */
export function allFields(sheet: Sheet): FieldForm[] {
  return [...sheet.fields, ...sheet.inner.flatMap(allFields)];
}

/** The first fault in a sheet or at the sheet itself, if there is one. */
export function faultIn(faults: readonly BookFault[], edits: Edits, sheet: Sheet): BookFault | undefined {
  return faults.find(
    (fault) =>
      fault.file === sheet.file &&
      [{ path: sheet.path }, ...allFields(sheet)].some(({ path }) =>
        faultAt([fault], edits, sheet.file, path),
      ),
  );
}

/** The faults that no field of these sheets shows; they are told above the forms. */
export function faultsElsewhere(
  faults: readonly BookFault[],
  edits: Edits,
  sheets: readonly Sheet[],
): BookFault[] {
  const shown = sheets.flatMap((sheet) => allFields(sheet).map(({ path }) => ({ file: sheet.file, path })));
  return faults.filter((fault) => !shown.some(({ file, path }) => faultAt([fault], edits, file, path)));
}

/** How many edits are made in a sheet, its own coming or going included. */
export function editsIn(edits: Edits, sheet: Sheet): number {
  const inside = edits.changes.filter((one) => one.file === sheet.file && within(one.path, sheet.path));
  const own =
    sheet.fields.length === 0 ? inside : inside.filter((one) => one.path.length >= sheet.path.length + 1);
  const top = sheet.path.length === 0 ? own.filter((one) => one.path.length === 1) : own;
  return top.length + (sheet.fresh || sheet.out ? 1 : 0);
}

/** A key as people read it: "least_share" is "Least share". */
export function keyName(key: string): string {
  const words = key.replaceAll("_", " ");
  return words.charAt(0).toUpperCase() + words.slice(1);
}
