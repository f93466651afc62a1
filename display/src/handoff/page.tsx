/** The hand-off board: numbers being made, numbers ready. With `?board` it is the customers' own, without buttons. */
import "../styles/sheet-feet.css";
import "../styles/handoff.css";
import type { JSX } from "preact";
import { act } from "../bar/acts";
import { Wait } from "../bar/bracket";
import { Says } from "../bar/page";
import { CallName } from "../parts/name";
import { LinkStatus, Top } from "../parts/top";
import { linkState, menu, queue } from "../shop";
import type { Ticket } from "../wire.gen";
import { counted } from "../words";
import { Handed } from "./handed";

function Making({ ticket }: { ticket: Ticket }): JSX.Element {
  return (
    <li class="making">
      <span class="board-number" style={{ "--digits": String(ticket.number).length }}>
        {ticket.number}
      </span>
      <CallName of={ticket.name} class="board-name" />
    </li>
  );
}

function Ready({ ticket, staff }: { ticket: Ticket; staff: boolean }): JSX.Element {
  const drinks = ticket.drinks.filter((drink) => drink.state !== "void").length;
  const altered = ticket.drinks.filter(
    (drink) => drink.state !== "void" && (drink.changed_at != null || drink.remade_at != null),
  ).length;
  return (
    <li class="ready" aria-label={`Number ${ticket.number} ready${ticket.name ? `, ${ticket.name}` : ""}`}>
      <span class="board-number">{ticket.number}</span>
      <CallName of={ticket.name} class="board-name" whole />
      {staff && (
        <>
          <span class="ready-facts">
            {counted(drinks, "drink")}
            {altered > 0 && `, ${altered} ⇄ changed`} · waiting{" "}
            {ticket.ready_at != null && <Wait rungAt={ticket.ready_at} />}
          </span>
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
        </>
      )}
    </li>
  );
}

/** How many columns keep all numbers on the board at once; two at least, so that nothing jumps with the second. */
export function columns(count: number, most: number): number {
  return Math.max(2, Math.min(most, Math.ceil(Math.sqrt(count))));
}

/** The same for numbers being made: five under each other fit on every screen, names and all. */
export function makingColumns(count: number): number {
  return Math.max(3, Math.ceil(count / 5));
}

export function HandOffPage(): JSX.Element {
  const staff = !new URLSearchParams(location.search).has("board");
  const tickets = queue.value?.tickets ?? [];
  const ready = tickets
    .filter((ticket) => ticket.state === "ready")
    .sort((one, other) => (one.ready_at ?? 0) - (other.ready_at ?? 0));
  const making = tickets.filter((ticket) => ticket.state !== "ready");
  return (
    <div class={`board-page link-${linkState.value}${staff ? " board-staff" : ""}`}>
      {staff ? (
        <Top here="Hand-off">
          <a class="board-way" href="/hand-off?board">
            Customers’ board
          </a>
        </Top>
      ) : (
        <header class="board-top">
          <h1>{menu.value?.shop.name ?? ""}</h1>
          {linkState.value !== "live" && <LinkStatus />}
        </header>
      )}
      <main class="board">
        {staff && <h1 class="unseen">Hand-off</h1>}
        <section class="board-making" aria-labelledby="making">
          <h2 id="making">Being made</h2>
          {making.length === 0 ? (
            <p class="board-none">{queue.value ? "Nothing at the bar." : "Joining the shop …"}</p>
          ) : (
            <ul style={{ "--columns": makingColumns(making.length) }}>
              {making.map((ticket) => (
                <Making key={ticket.id} ticket={ticket} />
              ))}
            </ul>
          )}
        </section>
        <section class="board-ready" aria-labelledby="ready" aria-live="polite">
          <h2 id="ready">
            Ready {staff && ready.length > 0 && <span class="board-count">{ready.length}</span>}
          </h2>
          {ready.length === 0 ? (
            <p class="board-none">
              {staff
                ? "Nothing to hand off. Drinks come here once bumped at the bar."
                : "Your number appears here."}
            </p>
          ) : (
            <ul style={{ "--columns": columns(ready.length, staff ? 3 : 4) }}>
              {ready.map((ticket) => (
                <Ready key={ticket.id} ticket={ticket} staff={staff} />
              ))}
            </ul>
          )}
        </section>
      </main>
      {staff && <Handed />}
      <Says />
    </div>
  );
}
