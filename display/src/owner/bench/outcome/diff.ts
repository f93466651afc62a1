/** Before and after an edit: figures, doses and margins, with what became of each in a word. Pure. */
import type { Balance, Build, Outcome, Step } from "../../../wire.gen";
import { figure, listed } from "../../../words/words";

/** What became of a figure. "new" and "gone" where one side has none. */
export type Turn = "same" | "more" | "less" | "other" | "new" | "gone" | "moved";

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

const balance =
  (key: keyof Balance) =>
  (outcome: Outcome): number | undefined =>
    outcome.balance?.[key];

const earned =
  (key: keyof NonNullable<Outcome["money"]>) =>
  (outcome: Outcome): number | undefined =>
    outcome.money?.[key];

const cup =
  (key: "filled_ml" | "head_ml") =>
  (outcome: Outcome): number | undefined =>
    outcome.build?.fill[key];

const CUP: readonly Figure[] = [
  { name: "Filled", value: cup("filled_ml"), write: unit(0, "ml") },
  { name: "Left to the seal line", value: cup("head_ml"), write: unit(0, "ml") },
  { name: "Served at", value: balance("temperature_c"), write: unit(0, "°C") },
  { name: "Ice left", value: balance("ice_left_g"), write: unit(0, "g") },
];

const TASTE: readonly Figure[] = [
  { name: "Sweetness", value: balance("brix"), write: unit(1, "% sugar") },
  { name: "of it added", value: balance("added_brix"), write: unit(1, "% sugar") },
  { name: "All but water", value: balance("dry_pct"), write: unit(1, "%") },
  { name: "Tea as brewed", value: balance("tea_pct"), write: unit(0, "%") },
  { name: "Melt and water", value: balance("dilution_pct"), write: unit(0, "%") },
];

const BODY: readonly Figure[] = [
  { name: "Sugars", value: balance("sugars_g"), write: unit(1, "g") },
  { name: "of these added", value: balance("added_sugars_g"), write: unit(1, "g") },
  { name: "Caffeine", value: balance("caffeine_mg"), write: unit(0, "mg") },
];

const moneyOf = (money: (minor: number) => string): Figure[] => [
  { name: "Price", value: earned("price"), write: money },
  { name: "Ingredients cost", value: earned("cost"), write: money },
  { name: "Margin", value: earned("margin"), write: money },
  { name: "of the net price", value: earned("margin_pct"), write: unit(1, "%") },
];

/** How far a build is off the recipe, ingredient by ingredient, in per cent. */
function errorsOf(before: Outcome, after: Outcome): Figure[] {
  const all = [...after.errors, ...before.errors];
  return [...new Map(all.map((one) => [one.ingredient, one.label]))].map(([ingredient, label]) => ({
    name: label,
    value: (outcome) => outcome.errors.find((one) => one.ingredient === ingredient)?.error_pct,
    write: signed,
  }));
}

/** An error in per cent with its sign: "+4.2 %"; nothing to tell is "as written". */
export function signed(value: number): string {
  const text = fixed(value, 1);
  if (Number(text.replace(MINUS, "-")) === 0) return "as written";
  return `${value > 0 ? "+" : ""}${text} %`;
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
  const by = one.write(Math.abs(is - was));
  // What is rounded away is not told as a change by nothing: that there is one, its mark says.
  const change = by === one.write(0) ? "" : `${is > was ? "+" : MINUS}${by}`;
  return { name: one.name, ...texts, turn: is > was ? "more" : "less", change };
}

/** Words before and after. */
function wordRow(name: string, was: string | undefined, is: string | undefined): FigureRow {
  const texts = { name, before: was ?? "–", after: is ?? "–", change: "" };
  if (was === is) return { ...texts, turn: "same" };
  if (was === undefined || is === undefined) return { ...texts, turn: was === undefined ? "new" : "gone" };
  return { ...texts, turn: "other" };
}

/** A figure as a label has it, "1222 kJ", before and after: the change is that of the label's figures. */
function labelRow(name: string, was: string | undefined, is: string | undefined): FigureRow {
  const row = wordRow(name, was, is);
  const [old, now] = [was, is].map((text) => text?.match(/^(\d+) (\S+)$/));
  if (row.turn !== "other" || !old || !now || old[2] !== now[2]) return row;
  const more = Number(now[1]) - Number(old[1]);
  const change = `${more > 0 ? "+" : MINUS}${Math.abs(more)} ${now[2]}`;
  return { ...row, turn: more > 0 ? "more" : "less", change };
}

/** Figures that belong together, under a heading. */
export interface FigureGroup {
  readonly name: string;
  readonly rows: readonly FigureRow[];
}

/**
 * The figures of a drink before and after, in groups; `money` writes minor units, fractions too, and `factors`
 * names whose factors energy goes by.
 */
export function figureGroups(
  before: Outcome,
  after: Outcome,
  money: (minor: number) => string,
  factors: string,
): FigureGroup[] {
  const rows = (figures: readonly Figure[]): FigureRow[] =>
    figures.flatMap((one) => figureRow(one, before, after) ?? []);
  const parts = ({ energy_words }: Outcome): string[] => (energy_words ? energy_words.split(" / ") : []);
  const energy = [`Energy, ${factors} factors`, "in kilocalories"].flatMap((name, part) => {
    const [was, is] = [parts(before)[part], parts(after)[part]];
    return was === undefined && is === undefined ? [] : labelRow(name, was, is);
  });
  const told = ({ build }: Outcome): string | undefined =>
    build ? listed(build.allergens) || "none known: ask us" : undefined;
  return [
    { name: "In the cup", rows: rows(CUP) },
    { name: "Taste", rows: rows(TASTE) },
    {
      name: "Nutrition",
      rows: [...rows(BODY), ...energy, wordRow("Contains", told(before), told(after))],
    },
    { name: "Money", rows: rows(moneyOf(money)) },
    { name: "Against the recipe", rows: rows(errorsOf(before, after)) },
  ].filter((one) => one.rows.length > 0);
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

/** Which of these numbers stand out of order: as few as can be said to have moved. */
function outOfOrder(numbers: readonly number[]): Set<number> {
  let best: number[] = [];
  const ends: number[][] = [];
  for (const number of numbers) {
    const before = ends.filter((one) => (one.at(-1) ?? -1) < number);
    const run = [
      ...before.reduce((longest, one) => (one.length > longest.length ? one : longest), []),
      number,
    ];
    ends.push(run);
    if (run.length > best.length) best = run;
  }
  return new Set(numbers.filter((number) => !best.includes(number)));
}

function changeOf(old: Step, step: Step): StepRow {
  if (old.text === step.text) return { step, turn: "same", was: "" };
  if (!old.amount || !step.amount || old.amount.unit !== step.amount.unit) {
    return { step, turn: "other", was: doseOf(old) || old.text };
  }
  const turn = step.amount.count > old.amount.count ? "more" : "less";
  return { step, turn: step.amount.count === old.amount.count ? "other" : turn, was: doseOf(old) };
}

/**
 * The steps of a build with what changed at each; steps that are gone follow at the end. Steps are matched
 * by station, action and ingredient, in order where one comes twice.
 */
export function stepRows(before: Build | null, after: Build | null): StepRow[] {
  const old = before?.steps ?? [];
  const left = new Set(old.keys());
  const matched = (after?.steps ?? []).map((step) => {
    const place = [...left].find((one) => nameOf(old[one] as Step) === nameOf(step));
    if (place !== undefined) left.delete(place);
    return { step, place };
  });
  const moved = outOfOrder(matched.flatMap(({ place }) => place ?? []));
  const rows = matched.map(({ step, place }): StepRow => {
    const was = place === undefined ? undefined : old[place];
    if (!was || place === undefined) return { step, turn: before ? "new" : "same", was: "" };
    const row = changeOf(was, step);
    return row.turn === "same" && moved.has(place) ? { ...row, turn: "moved" } : row;
  });
  const gone = [...left].flatMap((place) => old[place] ?? []);
  return [...rows, ...gone.map((step): StepRow => ({ step, turn: after ? "gone" : "same", was: "" }))];
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
