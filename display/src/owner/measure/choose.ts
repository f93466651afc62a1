/** The ingredients and tools of the book, to choose from. Pure. */
import type { FormTable, Workbook } from "../../wire.gen";

/** A thing of the book by its id. */
export interface Named {
  readonly id: string;
  readonly name: string;
}

function text(table: FormTable, key: string): string | undefined {
  const value = table.entries.find((entry) => entry.key === key)?.value;
  return typeof value === "string" ? value : undefined;
}

function tables(book: Workbook, file: string): readonly FormTable[] {
  return book.files.find((one) => one.file === file)?.tables ?? [];
}

/** The pantry, in the order of the book. */
export function ingredients(book: Workbook): Named[] {
  return tables(book, "pantry.toml")
    .filter((table) => table.path.length === 1)
    .map((table) => ({ id: String(table.path[0]), name: text(table, "name") ?? table.title }));
}

/** The tools of one kind, or all. */
export function tools(book: Workbook, kind?: string): Named[] {
  return tables(book, "shop.toml")
    .filter((table) => table.path.length === 2 && table.path[0] === "tools")
    .filter((table) => kind === undefined || text(table, "kind") === kind)
    .map((table) => ({ id: String(table.path[1]), name: text(table, "name") ?? table.title }));
}

/** What a key of an ingredient holds, as written: "0.40 g/ml". */
export function held(book: Workbook, ingredient: string, key: string): string | undefined {
  const table = tables(book, "pantry.toml").find((one) => one.path[0] === ingredient);
  return table && text(table, key);
}

/** The allergens that an ingredient may be said to contain, with their names, and those it is said to. */
export function allergens(book: Workbook, ingredient: string): { all: Named[]; said: string[] } {
  const table = tables(book, "pantry.toml").find((one) => one.path[0] === ingredient);
  const entry = table?.entries.find((one) => one.key === "allergens");
  const source = book.sources.find((one) => one.name === "allergens");
  return {
    all: (source?.options ?? []).map(({ value, name }) => ({ id: value, name })),
    said: Array.isArray(entry?.value) ? entry.value : [],
  };
}

/** The ingredients that steps of the book measure with a kind of tool: those are offered first. */
export function measuredWith(book: Workbook, kind: string, unitWords: readonly string[]): Set<string> {
  const found = new Set<string>();
  const names = new Set(tools(book, kind).map((tool) => tool.id));
  for (const file of book.files) {
    for (const table of file.tables) {
      const what = text(table, "what");
      const amount = text(table, "amount") ?? "";
      const tool = text(table, "tool");
      const byWord = unitWords.some((word) => word !== "" && amount.endsWith(word));
      if (what !== undefined && ((tool !== undefined && names.has(tool)) || byWord)) found.add(what);
    }
  }
  return found;
}

/** A tool's words for one and several of its measures. */
export function unitWords(book: Workbook, kind: string): string[] {
  return tables(book, "shop.toml")
    .filter((table) => table.path[0] === "tools" && text(table, "kind") === kind)
    .flatMap((table) => [text(table, "one") ?? "", text(table, "many") ?? ""]);
}

/** The stations, in the order of the counter. */
export function stations(book: Workbook): Named[] {
  return tables(book, "shop.toml")
    .filter((table) => table.path.length === 2 && table.path[0] === "stations")
    .map((table) => ({ id: String(table.path[1]), name: text(table, "name") ?? table.title }));
}

/** The station where most drinks get their ice: there, or right after it, it is worked. */
export function icing(book: Workbook): string | undefined {
  const counts = new Map<string, number>();
  for (const table of book.files.flatMap((file) => file.tables)) {
    const station = text(table, "station");
    if (station === undefined || text(table, "do") !== "ice") continue;
    counts.set(station, (counts.get(station) ?? 0) + 1);
  }
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0];
}
