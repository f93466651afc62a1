/** Measuring how far a station chills: known liquid on known ice, worked as for a drink, and the thermometer. */
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import { reason, send } from "../../link/api";
import type { Chilled, ChillReading } from "../../wire.gen";
import { book, bookFault, edit, edits } from "../book/data";
import { takeOver } from "../book/edits";
import { KNOWN_FIELDS, type Known, NOTHING_KNOWN, trialOf } from "./chilling";
import { icing, stations } from "./choose";
import { ControlChart } from "./controlchart";
import type { HowTo } from "./howto";
import { MeasureHow } from "./measurehow";
import { NumberPad } from "./numberpad";
import { celsiusOf } from "./readings";
import { Readings, Taken, Verdict } from "./verdict";

/** What the trials come to, asked for anew with each. */
function useChilled(station: string, trials: readonly ChillReading[]): [Chilled | null, string] {
  const [chilled, setChilled] = useState<Chilled | null>(null);
  const [fault, setFault] = useState("");
  useEffect(() => {
    setFault("");
    if (trials.length === 0 || station === "") {
      setChilled(null);
      return undefined;
    }
    const stale = new AbortController();
    send<Chilled>("/api/owner/chill", { station, readings: trials }, { signal: stale.signal })
      .then(setChilled)
      .catch((error: unknown) => {
        if (stale.signal.aborted) return;
        setChilled(null);
        setFault(reason(error));
      });
    return () => stale.abort();
  }, [station, trials]);
  return [chilled, fault];
}

function KnownFigures({ known, onKnown }: { known: Known; onKnown: (known: Known) => void }): JSX.Element {
  return (
    <fieldset class="known">
      <legend>Before the shake (kept for the next one)</legend>
      {KNOWN_FIELDS.map((field) => (
        <label key={field.key}>
          {field.name}
          <span>
            <input
              aria-label={field.says}
              autocomplete="off"
              inputMode={field.key === "ice_c" ? "text" : "decimal"}
              value={known[field.key]}
              onInput={(event) => onKnown({ ...known, [field.key]: event.currentTarget.value })}
            />
            {field.unit}
          </span>
        </label>
      ))}
    </fieldset>
  );
}

/** A trial as it is listed: where it ended, and what share of the melting that is. */
function trialWords(trial: ChillReading, extent: number | undefined): string {
  const ended = `${trial.end_c} °C`;
  return extent === undefined ? ended : `${ended}, ${extent.toFixed(0)} %`;
}

export function ChillingPane({ how }: { how: HowTo }): JSX.Element {
  const [picked, setPicked] = useState("");
  const [known, setKnown] = useState<Known>(NOTHING_KNOWN);
  const [trials, setTrials] = useState<readonly ChillReading[]>([]);
  const [missing, setMissing] = useState("");
  const [taken, setTaken] = useState(false);
  const held = book.value;
  const offered = held ? stations(held) : [];
  const station = picked || (held ? (icing(held) ?? offered[0]?.id ?? "") : "");
  const [chilled, fault] = useChilled(station, trials);
  const extents = chilled?.extents_pct.length === trials.length ? chilled.extents_pct : [];
  const change = (next: readonly ChillReading[]): void => {
    setTrials(next);
    setTaken(false);
  };
  return (
    <>
      <MeasureHow how={how}>
        <div class="measure-of">
          <label>
            Station
            <select value={station} onChange={(event) => setPicked(event.currentTarget.value)}>
              {offered.map((one) => (
                <option key={one.id} value={one.id}>
                  {one.name}
                </option>
              ))}
            </select>
          </label>
        </div>
        <KnownFigures known={known} onKnown={setKnown} />
      </MeasureHow>
      <section class="measure-readings" aria-label="Readings">
        {extents.length > 0 && (
          <ControlChart readings={extents} weighing={chilled?.weighing ?? null} unit="%" />
        )}
        <Readings
          told={trials.map((trial, place) => trialWords(trial, extents[place]))}
          outside={chilled?.weighing?.outside ?? []}
          onOut={(out) => change(trials.filter((_, place) => place !== out))}
        />
        {trials.length < 2 && (
          <p class="nothing">
            How far a shake gets: the share of the melting that would happen if it went on until nothing
            changes any more. One trial tells it, two a mean, five a verdict.
          </p>
        )}
        {(missing || fault || bookFault.value) && (
          <p class="fault" role="alert">
            {missing || fault || bookFault.value}
          </p>
        )}
        {chilled?.weighing && (
          <Verdict
            weighing={chilled.weighing}
            finding={chilled.finding}
            edits={chilled.edits}
            onTake={() => {
              edit(takeOver(edits.peek(), chilled.edits));
              setTaken(true);
            }}
          />
        )}
        {taken && <Taken />}
      </section>
      <NumberPad
        label={`Reading ${trials.length + 1}: after the shake`}
        unit="°C"
        readingOf={celsiusOf}
        onReading={(celsius) => {
          const trial = trialOf(known, celsius);
          setMissing(typeof trial === "string" ? trial : "");
          if (typeof trial !== "string") change([...trials, trial]);
        }}
      />
    </>
  );
}
