/** How to measure, on a tablet beside the scale: what to do, the readings, their chart, the verdict, taking over. */
import "../styles/owner.css";
import "../styles/measure.css";
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import { reason, send } from "../api";
import type { Weighed } from "../wire.gen";
import { capital } from "../words";
import { ingredients, measuredWith, tools, unitWords } from "./choose";
import { ControlChart } from "./controlchart";
import { book, bookFault, edit, edits, readBook } from "./data";
import { takeOver } from "./edits";
import { HOW_TO, type HowTo, type Measured } from "./howto";
import { MeasureDrawing } from "./measuredrawing";
import { NumberPad } from "./numberpad";
import { OwnerTop } from "./top";

interface Chosen {
  readonly ingredient: string;
  readonly tool: string;
}

/** The verdict on readings, asked for anew with each; `of` are the readings it is about. */
function useWeighed(what: Measured, readings: readonly number[], chosen: Chosen): [Weighed | null, string] {
  const [weighed, setWeighed] = useState<Weighed | null>(null);
  const [fault, setFault] = useState("");
  useEffect(() => {
    setFault("");
    if (readings.length < 2) {
      setWeighed(null);
      return undefined;
    }
    const stale = new AbortController();
    const body = {
      what,
      readings_g: readings,
      ingredient: chosen.ingredient || null,
      tool: chosen.tool || null,
    };
    send<Weighed>("/api/owner/weigh", body, { signal: stale.signal })
      .then(setWeighed)
      .catch((error: unknown) => {
        if (!stale.signal.aborted) setFault(reason(error));
      });
    return () => stale.abort();
  }, [what, readings, chosen.ingredient, chosen.tool]);
  return [weighed, fault];
}

function Verdict({ weighed, onTake }: { weighed: Weighed; onTake: () => void }): JSX.Element {
  const { weighing, finding } = weighed;
  const good = weighing.verdict === "steady";
  return (
    <div class={`verdict verdict-${good ? "good" : "not"}`} role="status">
      <p class="verdict-word">
        <svg viewBox="0 0 20 20" aria-hidden="true">
          {good ? <path d="M3 11 L8 16 L17 4" /> : <path d="M10 2 L19 18 H1 Z M10 8 V13" />}
        </svg>
        <strong>{weighing.words}</strong>
      </p>
      <dl>
        <div>
          <dt>mean</dt>
          <dd>{weighing.mean_g.toFixed(2)} g</dd>
        </div>
        <div>
          <dt>the mean is sure to</dt>
          <dd>± {weighing.margin_g.toFixed(2)} g</dd>
        </div>
        <div>
          <dt>spread</dt>
          <dd>{weighing.spread_pct.toFixed(1)} %</dd>
        </div>
      </dl>
      {finding && <p>{finding}</p>}
      <button type="button" class="go" disabled={weighed.edits.length === 0} onClick={onTake}>
        {good ? "Take the mean over" : "Take the mean over all the same"}
      </button>
    </div>
  );
}

interface HowProps {
  readonly how: HowTo;
  readonly chosen: Chosen;
  readonly onWhat: (what: Measured) => void;
  readonly onChosen: (chosen: Chosen) => void;
}

function How({ how, chosen, onWhat, onChosen }: HowProps): JSX.Element {
  const held = book.value;
  const usual = held ? measuredWith(held, how.kind, unitWords(held, how.kind)) : new Set<string>();
  const all = held ? ingredients(held) : [];
  const offered = [...all.filter(({ id }) => usual.has(id)), ...all.filter(({ id }) => !usual.has(id))];
  return (
    <section class="measure-how" aria-label="How">
      <div class="buttons" role="group" aria-label="What is weighed">
        {HOW_TO.map((one) => (
          <button
            key={one.what}
            type="button"
            aria-pressed={one.what === how.what}
            onClick={() => onWhat(one.what)}
          >
            {one.name}
          </button>
        ))}
      </div>
      <div class="measure-of">
        <label>
          Of
          <select
            value={chosen.ingredient}
            onChange={(event) => onChosen({ ...chosen, ingredient: event.currentTarget.value })}
          >
            <option value="">choose the ingredient</option>
            {offered.map((one) => (
              <option key={one.id} value={one.id}>
                {one.name}
              </option>
            ))}
          </select>
        </label>
        <label>
          With
          <select
            value={chosen.tool}
            onChange={(event) => onChosen({ ...chosen, tool: event.currentTarget.value })}
          >
            {(held ? tools(held, how.kind) : []).map((one) => (
              <option key={one.id} value={one.id}>
                {capital(one.name)}
              </option>
            ))}
          </select>
        </label>
      </div>
      <MeasureDrawing what={how.what} />
      <ol class="measure-steps">
        {how.steps.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
    </section>
  );
}

export function MeasurePage(): JSX.Element {
  const [what, setWhat] = useState<Measured>("scoop");
  const [chosen, setChosen] = useState<Chosen>({ ingredient: "", tool: "" });
  const [readings, setReadings] = useState<readonly number[]>([]);
  const [taken, setTaken] = useState("");
  useEffect(() => void readBook(), []);
  const how = HOW_TO.find((one) => one.what === what) ?? HOW_TO[0];
  const held = book.value;
  const tool = chosen.tool || (held && how ? (tools(held, how.kind)[0]?.id ?? "") : "");
  const [weighed, fault] = useWeighed(what, readings, { ...chosen, tool });
  const shown = weighed?.weighing.readings_g.length === readings.length ? weighed.weighing : null;
  if (!how) return <OwnerTop here="Measure" />;
  return (
    <div class="owner-page">
      <OwnerTop here="Measure" />
      <main class="measure">
        <h1 class="unseen">How to measure</h1>
        <How
          how={how}
          chosen={{ ...chosen, tool }}
          onWhat={(next) => {
            setWhat(next);
            setReadings([]);
            setTaken("");
            setChosen({ ingredient: "", tool: "" });
          }}
          onChosen={(next) => {
            setChosen(next);
            setTaken("");
          }}
        />
        <section class="measure-readings" aria-label="Readings">
          <ControlChart readings={readings} weighing={shown} />
          <ol class="readings">
            {readings.map((grams, index) => (
              <li key={index} class={shown?.outside.includes(index + 1) ? "reading-outside" : ""}>
                <button
                  type="button"
                  class="plain"
                  aria-label={`Take reading ${index + 1}, ${grams} g, out`}
                  onClick={() => setReadings(readings.filter((_, place) => place !== index))}
                >
                  {index + 1}: {grams} g
                </button>
              </li>
            ))}
          </ol>
          {readings.length > 0 && <p class="readings-hint">Touch a reading to take it out.</p>}
          {readings.length < 2 && (
            <p class="nothing">Two readings give a mean, five a verdict, ten a good one.</p>
          )}
          {(fault || bookFault.value) && (
            <p class="fault" role="alert">
              {fault || bookFault.value}
            </p>
          )}
          {weighed && (
            <Verdict
              weighed={weighed}
              onTake={() => {
                edit(takeOver(edits.peek(), weighed.edits));
                setTaken(weighed.finding);
              }}
            />
          )}
          {weighed && weighed.edits.length === 0 && (
            <p>Choose the ingredient and the tool, to take the mean over into the book.</p>
          )}
          {taken && (
            <p class="taken" role="status">
              Taken over as an edit. <a href="/owner">See on the bench what it moves, and save it.</a>
            </p>
          )}
        </section>
        <NumberPad next={readings.length + 1} onReading={(grams) => setReadings([...readings, grams])} />
      </main>
    </div>
  );
}
