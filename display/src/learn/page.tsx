/** Training for a new hand: a bent drink, its steps hidden; station and amount are chosen, then checked. */
import "../styles/owner/owner.css";
import "../styles/learn.css";
import type { JSX } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { ask, reason, send } from "../link/api";
import { Tally } from "../parts/tally";
import { Top } from "../screen/top";
import type { Checked, CheckIn, TrainingDrink, TrainingStep } from "../wire.gen";
import { capital, listed } from "../words/words";
import { answered, asked, begin, complete, type Round, right, scoreWords, waits } from "./round";
import { Told } from "./told";

/** What a step asks, in words that do not give it away. */
function question(step: TrainingStep): string {
  if (step.asks === "amount") return `${capital(step.label)}: where, and how much?`;
  if (step.asks === "heat") return `${capital(step.label)}: where, and heated to what?`;
  if (step.asks === "time") return `${capital(step.label)}: where, and for how long?`;
  return `${capital(step.label)}: where?`;
}

const HEADS = { amount: "How much?", heat: "To what heat?", time: "For how long?", station: "" } as const;

interface AskProps {
  readonly round: Round;
  readonly step: TrainingStep;
  readonly onCheck: (station: string, count: number | null) => void;
  readonly busy: boolean;
}

function Asked({ round, step, onCheck, busy }: AskProps): JSX.Element {
  const [station, setStation] = useState("");
  const [count, setCount] = useState<number | null>(null);
  const heading = useRef<HTMLHeadingElement>(null);
  // The button that was pressed is gone with its step: whoever works by keyboard goes on at the next question.
  useEffect(() => {
    if (round.answers.length > 0) heading.current?.focus();
  }, []);
  return (
    <section class="asked" aria-label={`Step ${step.number}`}>
      <h2 ref={heading} tabIndex={-1}>
        <small>
          Step {step.number} of {round.drink.steps.length}
        </small>{" "}
        {question(step)}
      </h2>
      <h3 id="asked-station">At which station?</h3>
      <div class="asked-choices" role="group" aria-labelledby="asked-station">
        {round.drink.stations.map((one) => (
          <button
            key={one.id}
            type="button"
            aria-pressed={one.id === station}
            onClick={() => setStation(one.id)}
          >
            {one.name}
          </button>
        ))}
      </div>
      {step.choices.length > 0 && <h3 id="asked-amount">{HEADS[step.asks]}</h3>}
      {step.choices.length > 0 && (
        <div class="asked-choices" role="group" aria-labelledby="asked-amount">
          {step.choices.map((choice) => (
            <button
              key={choice.count}
              type="button"
              class="asked-amount"
              aria-pressed={choice.count === count}
              onClick={() => setCount(choice.count)}
            >
              {choice.text}
              {step.asks === "amount" && step.kind && <Tally kind={step.kind} count={choice.count} />}
            </button>
          ))}
        </div>
      )}
      <button
        type="button"
        class="go"
        disabled={busy || !complete(step, station, count)}
        onClick={() => onCheck(station, count)}
      >
        Check
      </button>
    </section>
  );
}

/** After a wrong answer nothing moves until it has been read: a touch goes on. */
function GoOn({ onNext }: { onNext: () => void }): JSX.Element {
  const next = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    next.current?.focus();
    next.current?.scrollIntoView({ block: "nearest" });
  }, []);
  return (
    <section class="asked" aria-label="Read and go on">
      <button ref={next} type="button" class="go" onClick={onNext}>
        I have read it, go on
      </button>
    </section>
  );
}

function End({ round, onNext }: { round: Round; onNext: () => void }): JSX.Element {
  const last = round.answers[round.answers.length - 1]?.checked.score;
  const next = useRef<HTMLButtonElement>(null);
  useEffect(() => next.current?.focus(), []);
  return (
    <section class="asked" aria-label="Score">
      <p class="score" role="status">
        <strong>
          {right(round)} / {round.drink.steps.length}
        </strong>
        {scoreWords(round)}
      </p>
      {last && (
        <p>
          {last.person} so far: {last.right} right of {last.answered} asked.
        </p>
      )}
      <button ref={next} type="button" class="go" onClick={onNext}>
        Another drink
      </button>
    </section>
  );
}

const KEY = "levelscoop.person";

/** Who trains, where the owner has scores kept; kept on this screen until it is closed. */
function Person({ person, onPerson }: { person: string; onPerson: (person: string) => void }): JSX.Element {
  return (
    <label class="person">
      Your name, for the score (leave it out to train without)
      <input
        maxLength={40}
        autocomplete="off"
        value={person}
        onInput={(event) => {
          sessionStorage.setItem(KEY, event.currentTarget.value);
          onPerson(event.currentTarget.value);
        }}
      />
    </label>
  );
}

function Drink({ drink }: { drink: TrainingDrink }): JSX.Element {
  return (
    <header class="learn-drink">
      <p>Build this drink:</p>
      <h1>{drink.title}</h1>
      {drink.words.length > 0 && <p class="learn-words">{listed(drink.words)}</p>}
      <p class="learn-about">{drink.about}</p>
    </header>
  );
}

export function LearnPage(): JSX.Element {
  const [round, setRound] = useState<Round | undefined>();
  const [number, setNumber] = useState(0);
  const [fault, setFault] = useState("");
  const [busy, setBusy] = useState(false);
  const [person, setPerson] = useState(sessionStorage.getItem(KEY) ?? "");
  useEffect(() => {
    const stale = new AbortController();
    // A drink can be asked for again by its seed, say to talk about it.
    const seed = number === 0 ? new URLSearchParams(location.search).get("seed") : null;
    const query = seed === null ? "" : `?seed=${encodeURIComponent(seed)}`;
    ask<TrainingDrink>(`/api/training/drink${query}`, stale.signal)
      .then((drink) => {
        setRound(begin(drink));
        setRead(0);
        setFault("");
      })
      .catch((error: unknown) => {
        if (!stale.signal.aborted) setFault(reason(error));
      });
    return () => stale.abort();
  }, [number]);
  const step = round && asked(round);
  // How many answers have been read: a wrong one is, by a touch.
  const [read, setRead] = useState(0);
  const unread = round !== undefined && waits(round, read);
  const check = async (station: string, count: number | null): Promise<void> => {
    if (!round || !step) return;
    setBusy(true);
    try {
      const line = round.drink.line;
      const body: CheckIn = {
        line: { ...line, toppings: line.toppings.map((one) => ({ ...one })), without: [...line.without] },
        step: step.number,
        station,
        count,
        person: round.drink.scores ? person.trim() : "",
      };
      const checked = await send<Checked>("/api/training/check", body);
      setRound(answered(round, { station, count, checked }));
      setFault("");
    } catch (error) {
      setFault(reason(error));
    }
    setBusy(false);
  };
  return (
    <div class="owner-page">
      <Top here="Learn" />
      <main class="learn">
        {fault && (
          <p class="fault" role="alert">
            {fault}
          </p>
        )}
        {round ? <Drink drink={round.drink} /> : !fault && <p class="nothing">Mixing up a drink …</p>}
        {round?.drink.scores && <Person person={person} onPerson={setPerson} />}
        {round && !round.drink.scores && <p class="person">No score is kept of anybody.</p>}
        {round && (
          <ol class={step || unread ? "told" : "told told-all"} aria-label="Steps so far" aria-live="polite">
            {round.answers.map((answer, index) => {
              const of = round.drink.steps[index];
              return of && <Told key={of.number} drink={round.drink} answer={answer} step={of} />;
            })}
            {round.drink.steps.slice(round.answers.length + 1).map((one) => (
              <li key={one.number} class="hidden-step">
                step {one.number}
              </li>
            ))}
          </ol>
        )}
        {round && unread && <GoOn onNext={() => setRead(round.answers.length)} />}
        {round && step && !unread && (
          <Asked
            key={`${round.drink.seed}:${step.number}`}
            round={round}
            step={step}
            busy={busy}
            onCheck={(station, count) => void check(station, count)}
          />
        )}
        {round && !step && !unread && <End round={round} onNext={() => setNumber((before) => before + 1)} />}
      </main>
    </div>
  );
}
