/** Weighing a measure: of what and with which tool, the readings, their chart and verdict. */
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import { reason, send } from "../../link/api";
import type { Weighed } from "../../wire.gen";
import { capital } from "../../words/words";
import { book, bookFault, edit, edits } from "../book/data";
import { takeOver } from "../book/edits";
import { ingredients, measuredWith, tools, unitWords } from "./choose";
import { ControlChart } from "./controlchart";
import type { HowTo } from "./howto";
import { MeasureHow } from "./measurehow";
import { NumberPad } from "./numberpad";
import { gramsOf } from "./readings";
import { Readings, Taken, Verdict } from "./verdict";

interface Chosen {
  readonly ingredient: string;
  readonly tool: string;
}

/** The verdict on readings, asked for anew with each. */
function useWeighed(how: HowTo, readings: readonly number[], chosen: Chosen): [Weighed | null, string] {
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
      what: how.what,
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
  }, [how, readings, chosen.ingredient, chosen.tool]);
  return [weighed, fault];
}

interface OfProps {
  readonly how: HowTo;
  readonly chosen: Chosen;
  readonly onChosen: (chosen: Chosen) => void;
}

function Of({ how, chosen, onChosen }: OfProps): JSX.Element {
  const held = book.value;
  const usual = held ? measuredWith(held, how.kind, unitWords(held, how.kind)) : new Set<string>();
  const all = held ? ingredients(held) : [];
  const offered = [...all.filter(({ id }) => usual.has(id)), ...all.filter(({ id }) => !usual.has(id))];
  return (
    <div class="measure-of">
      <label>
        Of
        <select
          value={chosen.ingredient}
          onChange={(event) => onChosen({ ...chosen, ingredient: event.currentTarget.value })}
        >
          <option value="">what is weighed?</option>
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
  );
}

export function WeighingPane({ how }: { how: HowTo }): JSX.Element {
  const [picked, setPicked] = useState<Chosen>({ ingredient: "", tool: "" });
  const [readings, setReadings] = useState<readonly number[]>([]);
  const [taken, setTaken] = useState(false);
  const held = book.value;
  const chosen = { ...picked, tool: picked.tool || (held ? (tools(held, how.kind)[0]?.id ?? "") : "") };
  const [weighed, fault] = useWeighed(how, readings, chosen);
  const change = (next: readonly number[]): void => {
    setReadings(next);
    setTaken(false);
  };
  // While the answer to the newest reading is on its way, the chart has no limits.
  const shown = weighed?.weighing.readings.length === readings.length ? weighed.weighing : null;
  return (
    <>
      <MeasureHow how={how}>
        <Of
          how={how}
          chosen={chosen}
          onChosen={(next) => {
            setPicked(next);
            setTaken(false);
          }}
        />
      </MeasureHow>
      <section class="measure-readings" aria-label="Readings">
        {readings.length > 0 && <ControlChart readings={readings} weighing={shown} unit="g" />}
        <Readings
          told={readings.map((grams) => `${grams} g`)}
          outside={shown?.outside ?? []}
          onOut={(out) => change(readings.filter((_, place) => place !== out))}
        />
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
            weighing={weighed.weighing}
            finding={weighed.finding}
            edits={weighed.edits}
            onTake={() => {
              edit(takeOver(edits.peek(), weighed.edits));
              setTaken(true);
            }}
          />
        )}
        {weighed && weighed.edits.length === 0 && (
          <p>Choose what is weighed and with what, to take the mean over into the book.</p>
        )}
        {taken && <Taken />}
      </section>
      <NumberPad
        label={`Reading ${readings.length + 1}`}
        unit="g"
        readingOf={gramsOf}
        onReading={(grams) => change([...readings, grams])}
      />
    </>
  );
}
