/** Figures and lists in words, the same on every screen. */

const NUMBERS = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];

/** A small whole number as a word ("two"), a larger one in figures. */
export function numberWord(value: number): string {
  return NUMBERS[value] ?? String(value);
}

/** "one drink", "3 drinks": a figure with its noun, singular or plural. */
export function counted(value: number, one: string, many: string = `${one}s`): string {
  return `${value} ${value === 1 ? one : many}`;
}

/** "a", "a and b", "a, b and c". */
export function listed(items: readonly string[]): string {
  if (items.length < 2) return items[0] ?? "";
  return `${items.slice(0, -1).join(", ")} and ${items[items.length - 1]}`;
}

/** A name in the middle of a sentence: its first letter small, unless it is written in capitals. */
export function inSentence(name: string): string {
  const second = name.charAt(1);
  if (second !== "" && second === second.toUpperCase() && second !== second.toLowerCase()) return name;
  return name.charAt(0).toLowerCase() + name.slice(1);
}

/**
 * A name as it is called across a counter: all of it if it is short, else its first word and the first letter of its
 * last. A word is never cut.
 */
export function callName(name: string, most = 14): string {
  const words = name.trim().split(/\s+/);
  const last = words[words.length - 1] ?? "";
  if (name.trim().length <= most || words.length < 2) return name.trim();
  return `${words[0]} ${last.charAt(0).toUpperCase()}.`;
}

/** How many letters the longest part of a text has that is not broken over lines. */
export function longestPart(text: string): number {
  return Math.max(0, ...text.split(/\s+|(?<=-)/).map((part) => part.length));
}

/** The first letter made a capital. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** Seconds as a person reads them at a glance: "45 s", "2:05". */
export function seconds(value: number): string {
  const whole = Math.max(0, Math.round(value));
  return whole < 100 ? `${whole} s` : minutes(whole);
}

/** Seconds as minutes:seconds, "0:07", "12:40"; past an hour "1:02:03". */
export function minutes(value: number): string {
  const whole = Math.max(0, Math.round(value));
  const hours = Math.floor(whole / 3600);
  const mins = Math.floor((whole % 3600) / 60);
  const secs = String(whole % 60).padStart(2, "0");
  return hours > 0 ? `${hours}:${String(mins).padStart(2, "0")}:${secs}` : `${mins}:${secs}`;
}

/** A range of seconds, "30–60 s", "25 s", "2:00–3:00". */
export function range(low: number, high: number): string {
  if (Math.round(low) === Math.round(high)) return seconds(low);
  if (high < 100) return `${Math.round(low)}–${seconds(high)}`;
  return `${minutes(low)}–${minutes(high)}`;
}

/** How long ago something was seen: "14 s ago", "3 min ago". */
export function ago(secondsPassed: number): string {
  if (secondsPassed < 100) return `${Math.max(0, Math.round(secondsPassed))} s ago`;
  if (secondsPassed < 5400) return `${Math.round(secondsPassed / 60)} min ago`;
  return `${Math.round(secondsPassed / 3600)} h ago`;
}

/** A count in a tool's own unit, with halves, thirds and quarters as fractions: 1.5 is "1½", ⅔ is "⅔". */
export function figure(count: number): string {
  const whole = Math.floor(count);
  const rest = Math.round((count - whole) * 100) / 100;
  const fraction = { 0: "", 0.25: "¼", 0.33: "⅓", 0.5: "½", 0.67: "⅔", 0.75: "¾" }[rest];
  if (fraction === undefined) return String(Math.round(count * 10) / 10);
  if (fraction === "") return String(whole);
  return whole === 0 ? fraction : `${whole}${fraction}`;
}

/** The time of day of a moment in the shop's own time zone, "14:05". */
export function timeOfDay(at: number, timeZone: string): string {
  return new Intl.DateTimeFormat("en-GB", { timeZone, hour: "2-digit", minute: "2-digit" }).format(at);
}

/** A business day as people say it: "Wednesday 25 November 2026". `day` is YYYY-MM-DD. */
export function dayWords(day: string): string {
  return new Intl.DateTimeFormat("en-GB", {
    timeZone: "UTC",
    weekday: "long",
    day: "numeric",
    month: "long",
    year: "numeric",
  }).format(new Date(`${day}T12:00:00Z`));
}
