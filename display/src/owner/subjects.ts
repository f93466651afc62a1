/** What there is to edit, by subject rather than by file: drinks, pantry, tools, prices, modifiers, shop. Pure. */
import type { BookFault, BookFile, Entry, FormTable, Workbook } from "../wire.gen";
import type { Path } from "./edits";

/** The subjects of the bench, in the order of their buttons. */
export const GROUPS = ["Drinks", "Pantry", "Tools", "Prices", "Modifiers", "Shop"] as const;
export type Group = (typeof GROUPS)[number];

/** A form with the file that it belongs to. */
export interface Sheet {
  readonly file: string;
  readonly table: FormTable;
}

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

function isDrink(file: BookFile): boolean {
  return file.file.startsWith("drinks/");
}

function groupOf(file: BookFile, table: FormTable): Group {
  if (file.file === "pantry.toml") return "Pantry";
  if (file.file === "extras.toml") return "Modifiers";
  return SHOP_GROUPS[String(table.path[0] ?? "")] ?? "Shop";
}

/** A drink's sheets without its prices, which have a place of their own. */
function drinkSubject(file: BookFile): Subject {
  const sheets = file.tables
    .filter((table) => table.path[0] !== "prices")
    .map((table) => ({ file: file.file, table }));
  return { id: file.file, name: file.title, sheets };
}

/** The part of a table that has to do with money, or nothing. */
function pricesOf(file: BookFile, table: FormTable): FormTable | undefined {
  const entries = table.entries.filter((entry) => entry.kind === "price");
  if (entries.length === 0) return undefined;
  const title = isDrink(file) ? file.title : table.title;
  return { ...table, title, help: "", entries, repeats: false };
}

function priceSubjects(files: readonly BookFile[]): Subject[] {
  const sheets = files.flatMap((file) =>
    file.tables.flatMap((table) => {
      const prices = pricesOf(file, table);
      return prices ? [{ file: file.file, table: prices }] : [];
    }),
  );
  const of = (drinks: boolean): Sheet[] =>
    sheets.filter((sheet) => sheet.file.startsWith("drinks/") === drinks);
  return [
    { id: "prices of drinks", name: "Drinks", sheets: of(true) },
    { id: "prices of modifiers", name: "Toppings, milks and shots", sheets: of(false) },
  ].filter((subject) => subject.sheets.length > 0);
}

/** The subjects of one group, in the order of the book. */
export function subjects(book: Workbook, group: Group): Subject[] {
  if (group === "Prices") return priceSubjects(book.files);
  if (group === "Drinks") return book.files.filter(isDrink).map(drinkSubject);
  return book.files
    .filter((file) => !isDrink(file))
    .flatMap((file) =>
      file.tables
        .filter((table) => groupOf(file, table) === group)
        .map((table) => ({
          id: `${file.file}:${table.path.join(".")}`,
          name: table.title,
          sheets: [{ file: file.file, table }],
        })),
    );
}

/** A path as faults name it: places in a list count from 1. */
export function keyOf(path: Path): string {
  return path.map((part) => (typeof part === "number" ? part + 1 : part)).join(".");
}

/** The fault that stands at an entry, if one does. */
export function faultAt(
  faults: readonly BookFault[],
  file: string,
  entry: Pick<Entry, "path">,
): BookFault | undefined {
  const key = keyOf(entry.path);
  return faults.find((fault) => fault.file === file && fault.key === key);
}

/** The faults that no entry of these sheets shows; they are told above the forms. */
export function faultsElsewhere(faults: readonly BookFault[], sheets: readonly Sheet[]): BookFault[] {
  return faults.filter(
    (fault) =>
      !sheets.some(
        ({ file, table }) =>
          file === fault.file && table.entries.some((entry) => keyOf(entry.path) === fault.key),
      ),
  );
}

/** A key as people read it: "least_share" is "Least share". */
export function keyName(key: string): string {
  const words = key.replaceAll("_", " ");
  return words.charAt(0).toUpperCase() + words.slice(1);
}
