/** What stands in a cell: what one station does for one drink, counted at a glance. */
import type { JSX } from "preact";
import { now } from "../../link/clock";
import { Tally, Tick } from "../../parts/tally";
import type { Step } from "../../wire.gen";
import {
  amountFigure,
  type Cell,
  cellTimer,
  goesInHot,
  heatOf,
  isPoured,
  lengthOf,
  measuredTwice,
  showsTimer,
  stepState,
} from "./cells";

/** One step: the figure, its marks, what it is. Steps already done in an open cell are ticked. */
function StepLine({
  step,
  done,
  twice = false,
}: {
  step: Step;
  done: boolean;
  /** Whether two tools measure this ingredient, so that each has to be named. */
  twice?: boolean;
}): JSX.Element {
  if (done) {
    return (
      <div class="step step-done">
        <Tick /> <span class="step-label">{step.short}</span>
      </div>
    );
  }
  const length = lengthOf(step);
  if (!step.amount) {
    return (
      <div class="step">
        <span class="step-label">{step.short}</span>
        {length && <span class="step-length">{length}</span>}
      </div>
    );
  }
  return (
    <div class="step">
      <span class="step-count">
        <span class="step-figure">{amountFigure(step)}</span>
        {isPoured(step) ? (
          <span class="step-unit">ml</span>
        ) : (
          twice && <span class="step-unit">{step.amount.unit}</span>
        )}
        <Tally kind={step.amount.kind} count={step.amount.count} />
      </span>
      <span class="step-label">{step.short}</span>
      {step.celsius !== null && <strong class="step-hot">{heatOf(step)}</strong>}
      {goesInHot(step) && <strong class="step-hot">hot</strong>}
      {step.into && <span class="step-into">→ {step.into}</span>}
      {length && <span class="step-length">{length}</span>}
    </div>
  );
}

/** What stands inside a cell, whatever it is set in. Reads the clock only while a timer runs. */
export function CellBody({ cell }: { cell: Cell }): JSX.Element | null {
  if (cell.state === "none") return <span class="cell-none">·</span>;
  if (cell.state === "done") return <Tick />;
  const timer = showsTimer(cell) ? cellTimer(cell, now.value) : undefined;
  return (
    <>
      {timer && (
        <span
          class={`drain drain-${timer.reading.phase}`}
          style={{ height: `${(timer.reading.phase === "running" ? timer.reading.left : 1) * 100}%` }}
        />
      )}
      <div class="cell-steps">
        {cell.steps.map((step) =>
          timer && step === timer.step ? (
            <div key={step.number} class="step step-timed">
              <span class="step-timer">{timer.reading.glance}</span>
              <span class="step-label">
                {timer.reading.phase === "over" && "over: "}
                {step.short}
              </span>
            </div>
          ) : (
            <StepLine
              key={step.number}
              step={step}
              done={stepState(cell.states, step) === "done"}
              twice={measuredTwice(cell.steps, step)}
            />
          ),
        )}
      </div>
    </>
  );
}
