/** The hand-off: numbers being made, numbers ready with what is in the bag. With `?board` the customers' own board. */
import "../styles/floor/floor.css";
import "../styles/floor/handoff.css";
import "../styles/floor/board.css";
import type { JSX } from "preact";
import { act } from "../floor/acts";
import { now } from "../link/clock";
import { floor, linkState, queue } from "../link/shop";
import { CallName } from "../parts/name";
import { Says } from "../screen/says";
import { Top } from "../screen/top";
import type { Build, Ticket } from "../wire.gen";
import { minutes } from "../words/words";
import { bagOf, type InBag } from "./bag";
import { Board } from "./board";
import { Handed } from "./handed";
import { BeingMade } from "./making";
import { useReadyNews } from "./news";
import { offBoard } from "./pages";

/** "no ice" stays on one line: read apart it is something else. */
const unbroken = (words: string): string => words.replaceAll(" ", "\u00a0");

function Bag({ cups }: { cups: readonly InBag[] }): JSX.Element {
  return (
    <ul class="bag">
      {cups.map((cup) => (
        <li key={`${cup.title} ${cup.words.join()} ${cup.note} ${cup.altered}`}>
          {cup.count > 1 && <b>{cup.count} × </b>}
          <span class="bag-title">{cup.title}</span>
          {cup.words.length > 0 && <span class="bag-words"> {cup.words.map(unbroken).join(", ")}</span>}
          {cup.note && <span class="bag-note"> “{cup.note}”</span>}
          {cup.altered && <b class="bag-altered"> ⇄ changed</b>}
        </li>
      ))}
    </ul>
  );
}

/** How long a ready ticket has stood, and that the customers' board no longer shows it. */
function Stands({ since }: { since: number }): JSX.Element {
  const off = offBoard(since, now.value, floor.value?.board_keeps_s);
  return (
    <span class="ready-facts">
      <span class="ready-since">
        ready for <b>{minutes((now.value - since) / 1000)}</b>
      </span>
      {off && <strong class="ready-off">off the board</strong>}
    </span>
  );
}

function Ready({ ticket, builds }: { ticket: Ticket; builds: Readonly<Record<string, Build>> }): JSX.Element {
  return (
    <li class="ready" aria-label={`Number ${ticket.number} ready${ticket.name ? `, ${ticket.name}` : ""}`}>
      <span class="board-number">{ticket.number}</span>
      <CallName of={ticket.name} class="board-name" whole />
      {ticket.ready_at != null && <Stands since={ticket.ready_at} />}
      <Bag cups={bagOf(ticket, builds)} />
      <button
        type="button"
        class="hand-off"
        aria-label={`Number ${ticket.number} handed off`}
        onClick={() =>
          void act(
            `hand-off ${ticket.id}`,
            `/api/tickets/${ticket.id}/hand-off`,
            `Number ${ticket.number} handed off`,
          )
        }
      >
        Handed off
      </button>
    </li>
  );
}

function HandOff(): JSX.Element {
  const held = queue.value;
  const tickets = held?.tickets ?? [];
  const ready = tickets
    .filter((ticket) => ticket.state === "ready")
    .sort((one, other) => (one.ready_at ?? 0) - (other.ready_at ?? 0));
  useReadyNews(ready, held !== undefined);
  return (
    <div class={`board-page board-staff link-${linkState.value}`}>
      <Top here="Hand-off">
        <a class="board-way" href="/hand-off?board">
          Customers’ board
        </a>
      </Top>
      <main class="board">
        <h1 class="unseen">Hand-off</h1>
        <BeingMade tickets={tickets} none={held ? "Nothing at the bar." : "Joining the shop …"} />
        <section class="board-ready" aria-labelledby="ready">
          <h2 id="ready">Ready {ready.length > 0 && <span class="board-count">{ready.length}</span>}</h2>
          {ready.length === 0 ? (
            <p class="board-none">Nothing to hand off. Drinks come here once bumped at the bar.</p>
          ) : (
            <ul class="ready-list">
              {ready.map((ticket) => (
                <Ready key={ticket.id} ticket={ticket} builds={held?.builds ?? {}} />
              ))}
            </ul>
          )}
        </section>
      </main>
      <Handed />
      <Says />
    </div>
  );
}

export function HandOffPage(): JSX.Element {
  return new URLSearchParams(location.search).has("board") ? <Board /> : <HandOff />;
}
