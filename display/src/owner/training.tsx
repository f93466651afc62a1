/** Teaching: recipe cards to print, and whether a score is kept per person. */
import "../styles/owner.css";
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import { ask, newKey, reason, send } from "../api";
import { menu, timeZone } from "../shop";
import type { Scores } from "../wire.gen";
import { timeOfDay } from "../words";
import { OwnerTop } from "./top";

function People({ scores }: { scores: Scores }): JSX.Element {
  if (scores.people.length === 0) return <p class="nothing">Nobody has trained with a name yet.</p>;
  return (
    <table class="ledger">
      <thead>
        <tr>
          <th scope="col">Person</th>
          <th scope="col" class="figures">
            Right
          </th>
          <th scope="col" class="figures">
            Asked
          </th>
          <th scope="col">Last</th>
        </tr>
      </thead>
      <tbody>
        {scores.people.map((one) => (
          <tr key={one.person}>
            <th scope="row">{one.person}</th>
            <td class="figures">{one.right}</td>
            <td class="figures">{one.answered}</td>
            <td>
              {new Date(one.last_at).toLocaleDateString("en-GB", { timeZone: timeZone.value })},{" "}
              {timeOfDay(one.last_at, timeZone.value)}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Scoring(): JSX.Element {
  const [scores, setScores] = useState<Scores | undefined>();
  const [fault, setFault] = useState("");
  useEffect(() => {
    ask<Scores>("/api/training/scores")
      .then(setScores)
      .catch((error: unknown) => setFault(reason(error)));
  }, []);
  const turn = async (on: boolean): Promise<void> => {
    try {
      setScores(await send<Scores>("/api/owner/training", { scores: on }, { method: "PUT", key: newKey() }));
      setFault("");
    } catch (error) {
      setFault(reason(error));
    }
  };
  return (
    <section>
      <h2>Scores</h2>
      {fault && (
        <p class="fault" role="alert">
          {fault}
        </p>
      )}
      <label class="keep-mass">
        <input
          type="checkbox"
          checked={scores?.on ?? false}
          disabled={!scores}
          onChange={(event) => void turn(event.currentTarget.checked)}
        />
        Keep a score for each person who gives a name. Turned off, all scores kept are deleted.
      </label>
      {scores?.on && <People scores={scores} />}
    </section>
  );
}

export function TrainingPage(): JSX.Element {
  return (
    <div class="owner-page">
      <OwnerTop here="Training" />
      <main class="versions">
        <h1>Training</h1>
        <section>
          <h2>Learn at the screen</h2>
          <p>
            <a href="/learn">Learn the bar</a>: a drink that a customer might ask for; its stations and
            amounts are to be found step by step.
          </p>
        </section>
        <section>
          <h2>Recipe cards to print (PDF, A5)</h2>
          <ul class="cards">
            <li>
              <a href="/cards/all.pdf">
                <strong>All drinks</strong>
              </a>
            </li>
            {menu.value?.drinks.map((drink) => (
              <li key={drink.id}>
                <a href={`/cards/${encodeURIComponent(drink.id)}.pdf`}>{drink.name}</a>
              </li>
            ))}
          </ul>
        </section>
        <Scoring />
      </main>
    </div>
  );
}
