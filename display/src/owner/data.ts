/** What the owner's screens share: the book as forms, the edits being made, and what they would do. */
import { effect, signal } from "@preact/signals";
import { ask, reason, send } from "../api";
import { type Draft, lineOf, plainDraft } from "../register/draft";
import { menu } from "../shop";
import type { Trial, Workbook } from "../wire.gen";
import { countOf, type Edits, NO_EDITS, toSend } from "./edits";

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

export const trial = signal<Trying>({ asking: false, last: null, fault: "" });

/** Typing is followed, not each key of it, in ms. */
const REST_MS = 200;

const KEY = "levelscoop.edits";

interface Stored {
  readonly version: string;
  readonly edits: Edits;
}

/** What is kept for this tab; nothing where it cannot be read, or storage is shut off. */
function read(): Stored | null {
  try {
    return JSON.parse(globalThis.sessionStorage?.getItem(KEY) ?? "null") as Stored | null;
  } catch {
    return null;
  }
}

/** The edits that are not saved yet: kept while the owner goes from one screen to another. */
export const edits = signal<Edits>(read()?.edits ?? NO_EDITS);

function store(): void {
  const here = book.peek();
  if (!here || !globalThis.sessionStorage) return;
  if (countOf(edits.peek()) === 0) sessionStorage.removeItem(KEY);
  else sessionStorage.setItem(KEY, JSON.stringify({ version: here.version, edits: edits.peek() }));
}

/** Why edits were put aside, or nothing: the book they were made for has been changed by someone else. */
export const putAside = signal("");

/** Reads the book (again). Edits made for another version of it are put aside, and that is told. */
export async function readBook(): Promise<void> {
  try {
    const read_ = await ask<Workbook>("/api/owner/book");
    const before = book.peek()?.version ?? read()?.version ?? read_.version;
    if (before !== read_.version && countOf(edits.peek()) > 0) {
      putAside.value = "The book was changed elsewhere meanwhile. The edits not saved yet were put aside.";
      edits.value = NO_EDITS;
    }
    book.value = read_;
    bookFault.value = "";
  } catch (error) {
    bookFault.value = reason(error);
  }
}

/** Changes the edits; what they would do is asked for by itself. */
export function edit(next: Edits): void {
  edits.value = next;
  store();
}

/** Begins with the first drink of the menu where none was chosen, or a newer book no longer has it. */
function begin(): void {
  const drinks = menu.value?.drinks ?? [];
  const first = drinks[0];
  if (first && !drinks.some((drink) => drink.id === tried.peek()?.drink)) tried.value = plainDraft(first);
}

async function tryOut(signal: AbortSignal): Promise<void> {
  const line = tried.peek();
  if (!line) return;
  trial.value = { ...trial.peek(), asking: true };
  try {
    const asked = { edits: toSend(edits.peek()), line: lineOf(line) };
    const last = await send<Trial>("/api/owner/try", asked, { signal });
    if (!signal.aborted) trial.value = { asking: false, last, fault: "" };
  } catch (error) {
    if (!signal.aborted) trial.value = { ...trial.peek(), asking: false, fault: reason(error) };
  }
}

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
