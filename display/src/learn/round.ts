/** One round of training: a drink, an answer for each step, and what they come to. Pure. */
import type { Checked, TrainingDrink, TrainingStep } from "../wire.gen";

/** What a hand chose at one step, and what it was told. */
export interface Answer {
  readonly station: string;
  readonly count: number | null;
  readonly checked: Checked;
}

/** A round under way. The step asked is the one after the last answer. */
export interface Round {
  readonly drink: TrainingDrink;
  readonly answers: readonly Answer[];
}

export function begin(drink: TrainingDrink): Round {
  return { drink, answers: [] };
}

export function answered(round: Round, answer: Answer): Round {
  return { ...round, answers: [...round.answers, answer] };
}

/** The step that is asked now; nothing when the drink is done. */
export function asked(round: Round): TrainingStep | undefined {
  return round.drink.steps[round.answers.length];
}

export function right(round: Round): number {
  return round.answers.filter((answer) => answer.checked.right).length;
}

/** Whether the last answer was wrong and is still to be read, `read` answers having been. */
export function waits(round: Round, read: number): boolean {
  const last = round.answers[round.answers.length - 1];
  return last !== undefined && !last.checked.right && read < round.answers.length;
}

/** Whether enough is chosen at a step to be checked. */
export function complete(step: TrainingStep, station: string, count: number | null): boolean {
  return station !== "" && (step.asks === "station" || step.choices.length === 0 || count !== null);
}

/** The score in words, to be read at the end. */
export function scoreWords(round: Round): string {
  const all = round.drink.steps.length;
  const good = right(round);
  if (good === all) return `All ${all} steps right. This drink would taste as it should.`;
  return `${good} of ${all} steps right.`;
}
