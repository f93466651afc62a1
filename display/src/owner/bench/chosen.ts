/** What of the book is shown to be edited, and the ways there: by hand, from a drink, from a fault. */
import { batch, computed, signal } from "@preact/signals";
import { changeDrink } from "../../line/draft";
import type { BookFault } from "../../wire.gen";
import { capital } from "../../words/words";
import { desk, edits, tried, tryMenu } from "../book/data";
import type { Path } from "../book/edits";
import { type PriceChange, priceChanges } from "../book/prices";
import type { Sheet } from "../book/sheets";
import {
  allFields,
  drinkOfFile,
  faultAt,
  GROUPS,
  type Group,
  groupOf,
  isDrink,
  keyName,
  type Subject,
  subjects,
} from "../book/subjects";
import { focusNext } from "./focus";
import { inSheet, told } from "./forms/sheet";

/** What is being edited: a group, and in it a subject. */
export const group = signal<Group>("Drinks");
export const chosen = signal<Partial<Record<Group, string>>>({});
/** Counts the wishes to see something, so that one for what is shown already is met as well. */
export const asked = signal(0);

/** Everything that can be edited, by group. */
export const all = computed((): ReadonlyMap<Group, readonly Subject[]> => {
  const held = desk.value;
  return new Map(held ? GROUPS.map((one) => [one, subjects(held, one)]) : []);
});

/** The prices that are edited, of drinks and of what goes with them. */
export const changedPrices = computed((): readonly PriceChange[] =>
  priceChanges(
    edits.value,
    (all.value.get("Prices") ?? []).flatMap((one) => one.sheets),
  ),
);

/** Shows a drink's own file, when the sentence at the right is about another drink. */
export function showDrink(drink: string): void {
  chosen.value = { ...chosen.peek(), Drinks: `drinks/${drink}.toml` };
}

/** Tries the drink of a file, with the choices made so far as far as it has them. */
export function tryDrinkOf(file: string): void {
  const drink = tryMenu.peek()?.drinks.find((one) => `drinks/${one.id}.toml` === file);
  const now = tried.peek();
  if (drink && now && now.drink !== drink.id) tried.value = changeDrink(now, drink);
}

/** Chooses what to edit; a drink that is edited is the one tried. */
export function choose(of: Group, id: string): void {
  chosen.value = { ...chosen.peek(), [of]: id };
  if (of === "Drinks") tryDrinkOf(id);
}

/** What is chosen in the group: by hand, or the drink that is tried. */
export function chosenId(): string | undefined {
  const byHand = chosen.value[group.value];
  if (byHand !== undefined || group.value !== "Drinks" || !tried.value) return byHand;
  return `drinks/${tried.value.drink}.toml`;
}

/** The sheet, and in it the field, that a fault is about. */
function faultSpot(fault: BookFault): { of: Group; subject: Subject; sheet: Sheet; path: Path } | undefined {
  for (const [of, found] of all.peek()) {
    for (const subject of of === "Prices" ? [] : found) {
      for (const sheet of subject.sheets) {
        const field = allFields(sheet).find((one) => faultAt([fault], edits.peek(), sheet.file, one.path));
        if (field) return { of, subject, sheet, path: field.path };
        if (faultAt([fault], edits.peek(), sheet.file, sheet.path)) {
          return { of, subject, sheet, path: sheet.path };
        }
      }
    }
  }
  return undefined;
}

/** Where a fault is, as the forms call it. */
export function faultPlace(fault: BookFault): string {
  const spot = faultSpot(fault);
  if (!spot) return [fault.file, fault.key].filter((word) => word !== "").join(" ");
  const { subject, sheet, path } = spot;
  const step = sheet.list ? [`step ${sheet.list.place + 1}`] : [];
  const inside = path.slice(sheet.path.length).map((part) => keyName(String(part)).toLowerCase());
  const key = path === sheet.path ? [] : inside;
  return [capital(subject.name), ...step, ...key].join(", ");
}

/** Shows the form of what a fault is about, with focus in its field. */
export function showFault(fault: BookFault): void {
  const spot = faultSpot(fault);
  if (!spot) return;
  const at = `[data-key="${CSS.escape(spot.path.join("."))}"] :is(input, select, summary)`;
  focusNext(inSheet(spot.sheet, spot.path === spot.sheet.path ? "summary" : at));
  batch(() => {
    group.value = spot.of;
    choose(spot.of, spot.subject.id);
    asked.value += 1;
  });
}

/** After something was made, its form is shown, and focus is in it. */
export function showMade(id: string): void {
  const [file = "", path = ""] = id.split(":");
  const of = groupOf(file, path.split("."));
  focusNext(isDrink(id) ? "[data-another]" : ".bench-sheets .field :is(input, select)");
  batch(() => {
    group.value = of;
    choose(of, id);
  });
  told.value = isDrink(id) ? `${drinkOfFile(id)} is made and can be edited.` : "It is put in.";
}
