/** What was bumped last, each to be brought back with one touch; and a list of all that can be. */
import { signal } from "@preact/signals";
import type { JSX } from "preact";
import { queue } from "../link/shop";
import { Dialog } from "../parts/dialog";
import { CallName } from "../parts/name";
import { recall } from "./acts";
import { type Bump, bumps, bumpsByTicket, bumpWords } from "./bumps";

/** Whether the list of all that can be recalled is open. */
export const listOpen = signal(false);

/** One touch that brings back what was bumped. */
export function RecallButton({ bump, words }: { bump: Bump; words: string }): JSX.Element {
  return (
    <button
      type="button"
      class="recall"
      aria-label={`Number ${bump.ticket.number} ${words}, recall`}
      onClick={() => void recall(bump)}
    >
      <span class="recall-number">{bump.ticket.number}</span> <span class="recall-title">{words}</span>{" "}
      <span class="recall-word">recall</span>
    </button>
  );
}

function Listed({ list }: { list: readonly Bump[] }): JSX.Element {
  return (
    <Dialog
      title="Recall"
      className="recalls"
      onClose={() => {
        listOpen.value = false;
      }}
    >
      <p>
        What is bumped and still here. What was handed off is taken back at the{" "}
        <a href="/hand-off">hand-off</a> first.
      </p>
      {list.length === 0 && <p class="nothing">Nothing to recall.</p>}
      <ul>
        {list.map((bump) => (
          <li key={bump.ticket.id}>
            <h3>
              {bump.ticket.number} <CallName of={bump.ticket.name} />
            </h3>
            <div class="buttons">
              {bump.rows.length > 1 && (
                <button
                  type="button"
                  class="recall-all"
                  aria-label={`All ${bump.rows.length} of number ${bump.ticket.number}, recall`}
                  onClick={() => void recall(bump)}
                >
                  All {bump.rows.length}
                </button>
              )}
              {bump.rows.map((row) => (
                <button
                  key={row.drink.id}
                  type="button"
                  class="plain"
                  aria-label={`${[row.build.title, ...row.build.words].join(", ")}, number ${bump.ticket.number}, recall`}
                  onClick={() => void recall({ ...bump, rows: [row] })}
                >
                  {row.build.title}
                  {row.build.words.length > 0 && <small> {row.build.words.join(", ")}</small>}
                </button>
              ))}
            </div>
          </li>
        ))}
      </ul>
    </Dialog>
  );
}

/** The button that opens the list of all that can be recalled. */
export function BumpedList(): JSX.Element {
  return (
    <button
      type="button"
      class="recall-list"
      onClick={() => {
        listOpen.value = true;
      }}
    >
      All bumped
    </button>
  );
}

/** The list itself, while it is open. */
export function Recalls(): JSX.Element | null {
  const held = queue.value;
  return held && listOpen.value ? <Listed list={bumpsByTicket(bumps(held))} /> : null;
}

/** The strip at the foot; `most` touches are shown, the rest is in the list. */
export function Bumped({ most }: { most: number }): JSX.Element {
  const held = queue.value;
  const list = held ? bumps(held) : [];
  return (
    <section class="bumped" aria-label="Bumped last">
      <h2>Bumped</h2>
      {list.length === 0 && <p class="bumped-none">Nothing to recall.</p>}
      <ul>
        {list.slice(0, most).map((bump) => (
          <li key={`${bump.ticket.id}/${bump.at}`}>
            <RecallButton bump={bump} words={bumpWords(bump)} />
          </li>
        ))}
      </ul>
      <BumpedList />
    </section>
  );
}
