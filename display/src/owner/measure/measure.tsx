/** How to measure, on a tablet beside the scale: what to do, the readings, their chart, the verdict, taking over. */
import "../../styles/owner/owner.css";
import "../../styles/owner/measure.css";
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import { readBook } from "../book/data";
import { OwnerTop } from "../top";
import { ChillingPane } from "./chillingpane";
import { HOW_TO, type Measured } from "./howto";
import { WeighingPane } from "./weighingpane";

export function MeasurePage(): JSX.Element {
  const [what, setWhat] = useState<Measured>("scoop");
  useEffect(() => void readBook(), []);
  const how = HOW_TO.find((one) => one.what === what);
  return (
    <div class="owner-page">
      <OwnerTop here="Measure" />
      <main class="measure">
        <h1 class="unseen">How to measure</h1>
        <div class="buttons measure-what" role="group" aria-label="What is measured">
          {HOW_TO.map((one) => (
            <button
              key={one.what}
              type="button"
              aria-pressed={one.what === what}
              onClick={() => setWhat(one.what)}
            >
              {one.name}
            </button>
          ))}
        </div>
        {how?.what === "chill" && <ChillingPane how={how} />}
        {how && how.what !== "chill" && <WeighingPane key={how.what} how={how} />}
      </main>
    </div>
  );
}
