/** What the owner's screens share: the book as forms, the edits being made, and what they would do. */
import { batch, computed, effect, signal } from "@preact/signals";
import { type Draft, lineOf, plainDraft } from "../../line/draft";
import { ask, reason, send } from "../../link/api";
import { menu } from "../../link/shop";
import type { Forms, Menu, Trial, Workbook } from "../../wire.gen";
import { listed } from "../../words/words";
import { countOf, type Edits, NO_EDITS, same } from "./edits";
import { keep, kept, readKept, stillFits } from "./keeping";
import { textsToSend, toSend } from "./sending";
import type { Desk } from "./sheets";

/** The book in the folder; undefined until it has come. */
export const book = signal<Workbook | undefined>(undefined);
export const bookFault = signal("");

/** The drink that is being tried, as the register's sentence has it. */
export const tried = signal<Draft | undefined>(undefined);

/** What the edits would do. `last` goes on being shown while the next answer is on its way. */
export interface Trying {
  readonly asking: boolean;
  readonly last: Trial | null;
  readonly fault: string;
}

/** What the drink tried puts in at every size, by the last trial that the book did not refuse. */
export const amounts = signal<{ readonly drink: string; readonly cells: Trial["amounts"] }>({
  drink: "",
  cells: [],
});

export const trial = signal<Trying>({ asking: false, last: null, fault: "" });

/** The edits that are not saved yet: kept while the owner goes from one screen to another. */
export const edits = signal<Edits>(readKept()?.edits ?? NO_EDITS);

/** The files with texts of their own (edited as text, or new), as forms; and the options of the book with them. */
const written = signal<{ texts: Edits["texts"]; forms: Forms }>({
  texts: {},
  forms: { files: [], sources: [] },
});

/** The book with the whole texts among the edits, which the other edits are about; and the files that are saved. */
export const desk = computed<(Desk & { readonly saved: ReadonlySet<string> }) | undefined>(() => {
  const held = book.value;
  if (!held) return undefined;
  const { texts } = edits.value;
  const saved = new Set(held.files.map((one) => one.file));
  if (Object.keys(texts).length === 0) return { book: held, edits: edits.value, saved };
  const { files, sources } = written.value.forms;
  const own = files.filter((one) => one.file in texts);
  const files_ = [
    ...held.files.map((one) => own.find((other) => other.file === one.file) ?? one),
    ...own.filter((one) => !held.files.some((other) => other.file === one.file)),
  ];
  const book_ = { ...held, files: files_, sources: sources.length > 0 ? sources : held.sources };
  return { book: book_, edits: edits.value, saved };
});

/** The menu with the edits made, as far as it is known: what the sentence chooses from. */
export const tryMenu = signal<Menu | undefined>(undefined);

/** Why edits were put aside, or nothing: their files have been changed by someone else. */
export const putAside = signal("");

async function formsOf(texts: Edits["texts"]): Promise<void> {
  if (same(texts, written.peek().texts)) return;
  const forms = await send<Forms>("/api/owner/forms", { edits: textsToSend(texts) });
  written.value = { texts, forms };
}

/** Reads the book (again). Edits of files that were changed meanwhile are put aside, and that is told. */
export async function readBook(): Promise<void> {
  try {
    const now = await ask<Workbook>("/api/owner/book");
    const held = book.peek() ? kept(edits.peek(), book.peek()?.files ?? []) : readKept();
    const { edits: fit, lost } = held ? stillFits(held, now.files) : { edits: NO_EDITS, lost: [] };
    await formsOf(fit.texts);
    batch(() => {
      if (lost.length > 0) {
        putAside.value = `${listed(lost)} ${lost.length === 1 ? "was" : "were"} changed elsewhere meanwhile. What was not saved yet there was put aside.`;
      }
      book.value = now;
      bookFault.value = "";
      edit(fit);
    });
  } catch (error) {
    bookFault.value = reason(error);
  }
}

/** Changes the edits; what they would do is asked for by itself. */
export function edit(next: Edits): void {
  if (!same(next, edits.peek())) edits.value = next;
  const files = book.peek()?.files;
  if (files) keep(countOf(next) === 0 ? null : kept(next, files));
}

/** Changes whole texts among the edits, whose forms have to come first. Gives why that could not be. */
export async function editTexts(next: Edits): Promise<string> {
  try {
    await formsOf(next.texts);
    edit(next);
    return "";
  } catch (error) {
    return reason(error);
  }
}

/** A file's text with all edits in it made. May be refused. */
export async function textNow(file: string): Promise<string> {
  const all = toSend(edits.peek()).filter((one) => one.file === file);
  const forms = await send<Forms>("/api/owner/forms", { edits: all });
  const found =
    forms.files.find((one) => one.file === file) ?? book.peek()?.files.find((one) => one.file === file);
  return found?.text ?? "";
}

/** Begins with the first drink of the menu where none was chosen, or the one chosen is gone. */
function begin(): void {
  if (tryMenu.peek() === undefined) tryMenu.value = menu.value;
  const drinks = tryMenu.peek()?.drinks ?? [];
  const [first] = drinks;
  if (first && !drinks.some((drink) => drink.id === tried.peek()?.drink)) tried.value = plainDraft(first);
}

/** The menu that a trial told, with the drinks that only the next save takes off: their sentence stays. */
function withGone(told: Menu): Menu {
  const saved = desk.peek()?.saved;
  const gone = (tryMenu.peek()?.drinks ?? []).filter(
    ({ id }) => saved?.has(`drinks/${id}.toml`) && !told.drinks.some((one) => one.id === id),
  );
  return { ...told, drinks: [...told.drinks, ...gone] };
}

async function tryOut(signal: AbortSignal): Promise<void> {
  const line = tried.peek();
  if (!line) return;
  trial.value = { ...trial.peek(), asking: true };
  try {
    const asked = { edits: toSend(edits.peek()), line: lineOf(line) };
    const last = await send<Trial>("/api/owner/try", asked, { signal });
    if (signal.aborted) return;
    batch(() => {
      trial.value = { asking: false, last, fault: "" };
      if (last.after) amounts.value = { drink: line.drink, cells: last.amounts };
      if (last.menu) tryMenu.value = withGone(last.menu);
      begin();
    });
  } catch (error) {
    if (!signal.aborted) trial.value = { ...trial.peek(), asking: false, fault: reason(error) };
  }
}

/** Typing is followed, not each key of it, in ms. */
const REST_MS = 200;

/** Follows the edits and the drink with trials, until told to stop. */
export function followEdits(): () => void {
  void readBook();
  return effect(() => {
    begin();
    void edits.value;
    if (!book.value || !tried.value) return undefined;
    const stale = new AbortController();
    const rest = setTimeout(() => void tryOut(stale.signal), REST_MS);
    return () => {
      clearTimeout(rest);
      stale.abort();
    };
  });
}
