/** How a measure is taken: what it is of, our drawing of it, and the steps. */
import type { ComponentChildren, JSX } from "preact";
import type { HowTo } from "./howto";
import { MeasureDrawing } from "./measuredrawing";

export function MeasureHow({ how, children }: { how: HowTo; children: ComponentChildren }): JSX.Element {
  return (
    <section class="measure-how" aria-label="How">
      {children}
      <MeasureDrawing what={how.what} />
      <ol class="measure-steps">
        {how.steps.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
    </section>
  );
}
