/** Teaching: recipe cards to print, and whether a score is kept per person. */
import "../styles/owner/owner.css";
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import { ask, newKey, reason, send } from "../link/api";
import { menu, timeZone } from "../link/shop";
import { Dialog } from "../parts/dialog";
import type { Scores } from "../wire.gen";
import { timeOfDay } from "../words/words";
import { OwnerTop } from "./top";

interface PeopleProps {
  readonly scores: Scores;
  readonly onForget: (person: string) => void;
}

function People({ scores, onForget }: PeopleProps): JSX.Element {
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
          <th scope="col">
            <span class="unseen">Delete</span>
          </th>
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
            <td>
              <button
                type="button"
                class="plain"
                aria-label={`Delete the score of ${one.person}`}
                onClick={() => onForget(one.person)}
              >
                Delete
              </button>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** What is about to be deleted, asked once more: it does not come back. */
type Doubt = { readonly person: string } | "all" | null;

interface SureProps {
  readonly doubt: Exclude<Doubt, null>;
  readonly onYes: () => void;
  readonly onNo: () => void;
}

function Sure({ doubt, onYes, onNo }: SureProps): JSX.Element {
  return (
    <Dialog
      title={doubt === "all" ? "Delete all scores?" : `Delete the score of ${doubt.person}?`}
      onClose={onNo}
    >
      <p>What is deleted does not come back.</p>
      <button type="button" class="danger" onClick={onYes}>
        {doubt === "all" ? "Stop, and delete all" : "Delete it"}
      </button>
    </Dialog>
  );
}

function Scoring(): JSX.Element {
  const [scores, setScores] = useState<Scores | undefined>();
  const [fault, setFault] = useState("");
  const [doubt, setDoubt] = useState<Doubt>(null);
  useEffect(() => {
    ask<Scores>("/api/training/scores")
      .then(setScores)
      .catch((error: unknown) => setFault(reason(error)));
  }, []);
  const told = async (answer: Promise<Scores>): Promise<void> => {
    setDoubt(null);
    try {
      setScores(await answer);
      setFault("");
    } catch (error) {
      setFault(reason(error));
    }
  };
  const turn = (on: boolean): Promise<void> =>
    told(send<Scores>("/api/owner/training", { scores: on }, { method: "PUT", key: newKey() }));
  const forget = (person: string): Promise<void> =>
    told(send<Scores>("/api/owner/training/forget", { person }));
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
          onClick={(event) => {
            // The service's answer ticks the box, not the touch.
            event.preventDefault();
            if (scores?.on && scores.people.length > 0) setDoubt("all");
            else void turn(!scores?.on);
          }}
        />
        Keep a score for each person who gives a name. Off, nothing is kept of anybody, and what was kept is
        deleted.
      </label>
      {scores?.on && <People scores={scores} onForget={(person) => setDoubt({ person })} />}
      {doubt && (
        <Sure
          doubt={doubt}
          onYes={() => void (doubt === "all" ? turn(false) : forget(doubt.person))}
          onNo={() => setDoubt(null)}
        />
      )}
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
          <p>A drink that a customer might ask for; its stations and amounts are to be found step by step.</p>
          <ul class="cards">
            <li>
              <a href="/learn">
                <strong>Learn the bar</strong>
              </a>
            </li>
          </ul>
        </section>
        <section>
          <h2>Allergens to print</h2>
          <p>
            One sheet for the whole menu, on A4: every drink with each milk, every topping, milk and shot.
            Print it anew after each change of a recipe or a brand.
          </p>
          <ul class="cards">
            <li>
              <a href="/cards/allergens.pdf">
                <strong>Allergens of the menu</strong>
              </a>
            </li>
          </ul>
        </section>
        <section>
          <h2>Recipe cards to print</h2>
          <p>
            PDF pages of A5, from the very builds of the version that is open: all sizes side by side. On A4
            they can be printed larger, or two to a sheet.
          </p>
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
