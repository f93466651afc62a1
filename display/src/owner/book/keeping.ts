/** Edits kept for this tab while its page is left or loaded anew, with the texts of the files that they are about. */
import type { BookFile } from "../../wire.gen";
import { type Edits, filesOf, NO_EDITS, onlyIn } from "./edits";

const KEY = "levelscoop.edits";

/** What is kept: the edits, and each of their files as it was read. */
export interface Kept {
  readonly edits: Edits;
  readonly bases: Readonly<Record<string, string | null>>;
}

function whole(found: unknown): found is Kept {
  const edits = (found as Partial<Kept> | null)?.edits as Partial<Edits> | undefined;
  const lists = [edits?.changes, edits?.added, edits?.removed, edits?.orders];
  return typeof edits?.texts === "object" && lists.every(Array.isArray);
}

/** What is kept for this tab; nothing where it cannot be read, or storage is shut off. */
export function readKept(): Kept | null {
  try {
    const found: unknown = JSON.parse(globalThis.sessionStorage?.getItem(KEY) ?? "null");
    return whole(found) ? found : null;
  } catch {
    return null;
  }
}

/** The edits with the texts of their files, null for a file that is not there. */
export function kept(edits: Edits, files: readonly BookFile[]): Kept {
  const textOf = (name: string): string | null => files.find((one) => one.file === name)?.text ?? null;
  return { edits, bases: Object.fromEntries(filesOf(edits).map((name) => [name, textOf(name)])) };
}

/** Keeps it, or lets it go when there is nothing to keep. */
export function keep(what: Kept | null): void {
  try {
    if (what === null) globalThis.sessionStorage?.removeItem(KEY);
    else globalThis.sessionStorage?.setItem(KEY, JSON.stringify(what));
  } catch {
    // Storage that is full or shut off: the edits live as long as the page does.
  }
}

/**
 * What of the kept edits still fits these files: those in files that are as they were when the edits were made.
 * `lost` names the others.
 */
export function stillFits(held: Kept, files: readonly BookFile[]): { edits: Edits; lost: string[] } {
  const now = kept(held.edits, files).bases;
  const all = filesOf(held.edits);
  const lost = all.filter((name) => (held.bases[name] ?? null) !== now[name]);
  if (lost.length === 0) return { edits: held.edits, lost };
  const fit = all.filter((name) => !lost.includes(name));
  return { edits: fit.length === 0 ? NO_EDITS : onlyIn(held.edits, fit), lost };
}
