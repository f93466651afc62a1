/** Ids made from names, as the book takes them: small letters, digits and _, at most 40, a letter first. Pure. */

const MOST = 40;

/** Letters that are not a plain letter with a mark. */
const SPELT: Readonly<Record<string, string>> = {
  ß: "ss",
  æ: "ae",
  œ: "oe",
  ø: "o",
  ł: "l",
  đ: "d",
  þ: "th",
};

/** The id of a name: "Crème brûlée, large" is creme_brulee_large. Empty where no letter can be made plain. */
export function idFrom(name: string): string {
  const plain = name
    .toLowerCase()
    .replace(/[ßæœøłđþ]/g, (letter) => SPELT[letter] ?? "")
    .normalize("NFKD")
    .replace(/[\u0300-\u036f'’]/g, "")
    .replace(/[^a-z0-9]+/g, "_")
    .replace(/^_+|_+$/g, "");
  const begun = /^[0-9]/.test(plain) ? `no_${plain}` : plain;
  return begun.slice(0, MOST).replace(/_+$/, "");
}

/**
 * An id for a name that no other has: that of the name, with a number where it is taken. Where the name has no
 * plain letter it is made of what is named (`of`). Empty for an empty name.
 */
export function freeId(name: string, of: string, taken: (id: string) => boolean): string {
  if (name.trim() === "") return "";
  const made = idFrom(name) || of;
  for (let number = 1; ; number++) {
    const end = number === 1 ? "" : `_${number}`;
    const id = `${made.slice(0, MOST - end.length).replace(/_+$/, "")}${end}`;
    if (!taken(id)) return id;
  }
}

/** Whether a text can be an id. */
export function isId(text: string): boolean {
  return /^[a-z][a-z0-9_]{0,39}$/.test(text);
}

/** A name for a narrow cell: whole words as far as they fit. */
export function shortened(name: string, most = 14): string {
  if (name.length <= most) return name;
  const words = name
    .slice(0, most + 1)
    .split(" ")
    .slice(0, -1)
    .join(" ");
  return (words || name.slice(0, most)).trim();
}
