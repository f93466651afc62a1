/** Before and after an edit: figures, doses and margins, with what became of each in a word. Pure. */
import type { Build, Outcome, Step } from "../wire.gen";
import { figure, listed } from "../words";

/** What became of a figure. "new" and "gone" where one side has none. */
export type Turn = "same" | "more" | "less" | "other" | "new" | "gone";

/** One figure before and after. `change` is written with its sign, empty when nothing changed. */
export interface FigureRow {
  readonly name: string;
  readonly before: string;
  readonly after: string;
  readonly turn: Turn;
  readonly change: string;
}

/** A figure of an outcome: its name, its value, how it is written. */
interface Figure {
  readonly name: string;
  readonly value: (outcome: Outcome) => number | undefined;
  readonly write: (value: number) => string;
}

const MINUS = "−";

/** A number with a fixed count of decimals and a true minus sign. */
export function fixed(value: number, decimals: number): string {
  const text = Math.abs(value).toFixed(decimals);
  return value < 0 && Number(text) !== 0 ? `${MINUS}${text}` : text;
}

const unit =
  (decimals: number, name: string) =>
  (value: number): string =>
    `${fixed(value, decimals)} ${name}`;

/** How much of the liquid is ice that has melted, in per cent by mass: what the drink is thinned by. */
export function dilution(build: Build): number {
  const { liquid_g, melted_g } = build.balance;
  return liquid_g > 0 ? (100 * melted_g) / liquid_g : 0;
}

function figuresOf(money: (minor: number) => string): Figure[] {
  const balance =
    (key: keyof Build["balance"]) =>
    (outcome: Outcome): number | undefined =>
      outcome.build?.balance[key];
  const earned =
    (key: keyof NonNullable<Outcome["money"]>) =>
    (outcome: Outcome): number | undefined =>
      outcome.money?.[key];
  return [
    { name: "Sweetness", value: balance("brix"), write: unit(1, "°Bx") },
    { name: "Sugars", value: balance("sugars_g"), write: unit(1, "g") },
    { name: "of these added", value: balance("added_sugars_g"), write: unit(1, "g") },
    {
      name: "Melted ice in it",
      value: ({ build }) => (build ? dilution(build) : undefined),
      write: unit(0, "%"),
    },
    { name: "Served at", value: balance("temperature_c"), write: unit(0, "°C") },
    { name: "Caffeine", value: balance("caffeine_mg"), write: unit(0, "mg") },
    { name: "Energy", value: balance("energy_kj"), write: unit(0, "kJ") },
    { name: "in kilocalories", value: balance("energy_kcal"), write: unit(0, "kcal") },
    { name: "In the cup", value: ({ build }) => build?.fill.filled_ml, write: unit(0, "ml") },
    { name: "Left to the line", value: ({ build }) => build?.fill.head_ml, write: unit(0, "ml") },
    { name: "Price", value: earned("price"), write: money },
    { name: "Ingredients cost", value: earned("cost"), write: money },
    { name: "Margin", value: earned("margin"), write: money },
    { name: "Margin of the net price", value: earned("margin_pct"), write: unit(1, "%") },
  ];
}

function figureRow(one: Figure, before: Outcome, after: Outcome): FigureRow | undefined {
  const was = one.value(before);
  const is = one.value(after);
  if (was === undefined && is === undefined) return undefined;
  if (was === undefined || is === undefined) {
    const turn = was === undefined ? "new" : "gone";
    const told = (value: number | undefined): string => (value === undefined ? "–" : one.write(value));
    return { name: one.name, before: told(was), after: told(is), turn, change: "" };
  }
  // What reads the same is the same: a change below the last figure written is not news.
  const texts = { before: one.write(was), after: one.write(is) };
  if (texts.before === texts.after) return { name: one.name, ...texts, turn: "same", change: "" };
  const change = `${is > was ? "+" : MINUS}${one.write(Math.abs(is - was))}`;
  return { name: one.name, ...texts, turn: is > was ? "more" : "less", change };
}

/** The figures of a drink before and after; `money` writes minor units, fractions too. */
export function figureRows(before: Outcome, after: Outcome, money: (minor: number) => string): FigureRow[] {
  const rows = figuresOf(money).flatMap((one) => figureRow(one, before, after) ?? []);
  const told = (outcome: Outcome): string =>
    outcome.build === null ? "–" : listed(outcome.build.allergens) || "none known: ask us";
  const allergens = { before: told(before), after: told(after) };
  const turn = allergens.before === allergens.after ? "same" : "other";
  return [...rows, { name: "Contains", ...allergens, turn, change: "" }];
}

/** A step's amount as hands measure it: "2½ scoops", "30 ml"; empty for a step without one. */
export function doseOf(step: Step): string {
  return step.amount ? `${figure(step.amount.count)} ${step.amount.unit}` : "";
}

/** A step after the edit, what it was before (when another), or one that is gone. */
export interface StepRow {
  readonly step: Step;
  readonly turn: Turn;
  readonly was: string;
}

const nameOf = (step: Step): string => `${step.station}|${step.action}|${step.ingredient ?? step.short}`;

/**
 * The steps of a build with what changed at each; steps that are gone follow at the end. Steps are matched
 * by station, action and ingredient, in order where one comes twice.
 */
export function stepRows(before: Build | null, after: Build | null): StepRow[] {
  const left = [...(before?.steps ?? [])];
  const rows = (after?.steps ?? []).map((step): StepRow => {
    const place = left.findIndex((one) => nameOf(one) === nameOf(step));
    if (place < 0) return { step, turn: before ? "new" : "same", was: "" };
    const old = left.splice(place, 1)[0];
    if (!old || old.text === step.text) return { step, turn: "same", was: "" };
    if (!old.amount || !step.amount || old.amount.unit !== step.amount.unit) {
      return { step, turn: "other", was: doseOf(old) || old.text };
    }
    const turn = step.amount.count > old.amount.count ? "more" : "less";
    return { step, turn: step.amount.count === old.amount.count ? "other" : turn, was: doseOf(old) };
  });
  return [...rows, ...left.map((step): StepRow => ({ step, turn: after ? "gone" : "same", was: "" }))];
}

/** Ingredients down, sizes across: each row's doses, the same ingredient twice in a drink added on. */
export interface DoseRow {
  readonly ingredient: string;
  readonly label: string;
  readonly cells: readonly (readonly Step[])[];
}

/** Every ingredient of any of the builds, in the order of the steps, with its steps in each. */
export function doseRows(builds: readonly (Build | null)[]): DoseRow[] {
  const names: { id: string; label: string }[] = [];
  for (const build of builds) {
    for (const step of build?.steps ?? []) {
      if (!step.amount || step.ingredient === null || names.some((one) => one.id === step.ingredient))
        continue;
      names.push({ id: step.ingredient, label: step.short });
    }
  }
  return names.map(({ id, label }) => ({
    ingredient: id,
    label,
    cells: builds.map((build) => build?.steps.filter((step) => step.ingredient === id && step.amount) ?? []),
  }));
}
