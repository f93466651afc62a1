/** The order: its lines, who it is for, what it comes to, and the button that rings it in. */
import type { JSX } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { sentence, spoken } from "../../line/sentence";
import { menu, money } from "../../link/shop";
import { taxName } from "../../words/tax";
import { counted } from "../../words/words";
import { aside, canRingIn, done, edit, ringInAll, ringing, takeUp } from "../drink/opendrink";
import { draft } from "../drink/quoting";
import { editing } from "../drink/state";
import { useWished, wish } from "../focus";
import { Settling } from "../rungin/cupinhand";
import {
  customer,
  latest,
  letGo,
  lines,
  locked,
  type OrderLine,
  putBack,
  removed,
  sending,
  setQuantity,
} from "./order";
import { outdated } from "./repricing";
import { allCups, openMore, totals } from "./totals";

/** How many of a line; the drink open in the middle, if it is that line, goes along. */
function many(line: OrderLine, quantity: number): void {
  setQuantity(line.key, quantity);
  if (editing.value !== line.key || !draft.value) return;
  if (quantity < 1) done();
  else draft.value = { ...draft.value, quantity };
}

function Line({ line }: { line: OrderLine }): JSX.Element {
  const { quantity } = line.draft;
  const off = locked.value;
  const place = useRef<HTMLLIElement>(null);
  const fresh = latest.value === line.key;
  useEffect(() => {
    // In the list's own scroller; where the page itself scrolls, it stays where the finger is.
    const list = place.current?.parentElement;
    if (fresh && list && list.scrollHeight > list.clientHeight)
      place.current?.scrollIntoView({ block: "nearest" });
  }, [fresh, quantity]);
  return (
    <li ref={place} class={`order-line${editing.value === line.key ? " editing" : ""}`}>
      <button type="button" class="order-what" disabled={off} onClick={() => edit(line)}>
        <strong>
          <span class="unseen">Edit </span>
          {line.title}
        </strong>
        {line.words.length > 0 && <span>{line.words.join(", ")}</span>}
        {line.draft.note && <span>“{line.draft.note}”</span>}
        {line.was !== null && (
          <em>
            The book changed: {money.value(line.unit)} each, was {money.value(line.was)}
          </em>
        )}
        {line.refused !== null && <em>This cannot be made: {line.refused}</em>}
      </button>
      <div class="stepper">
        <button
          type="button"
          disabled={off}
          aria-label={quantity > 1 ? `One ${line.title} less` : `Remove ${line.title}`}
          onClick={() => many(line, quantity - 1)}
        >
          {quantity > 1 ? "−" : "×"}
        </button>
        <output aria-label={`${quantity} of ${line.title}`}>{quantity}</output>
        <button
          type="button"
          disabled={off}
          aria-label={`One ${line.title} more`}
          onClick={() => many(line, quantity + 1)}
        >
          +
        </button>
        <span class="order-amount">{line.book === "" ? "…" : money.value(line.unit * quantity)}</span>
      </div>
    </li>
  );
}

function Outcome(): JSX.Element | null {
  const now = sending.value;
  if (now.state === "sending" && now.failed > 0) {
    return (
      <p class="outcome" role="status">
        No answer yet (tried {counted(now.failed, "time")}). The order is kept and is being sent again; it
        cannot be doubled.
      </p>
    );
  }
  if (now.state === "unsure") {
    return (
      <div class="outcome outcome-bad" role="alert">
        <p>{now.why} It is not known whether the order is in. Ringing in again is safe: it counts once.</p>
        <button type="button" class="plain" onClick={letGo}>
          Change it (look at today’s orders first)
        </button>
      </div>
    );
  }
  if (now.state === "refused") {
    return (
      <div class="outcome outcome-bad" role="alert">
        <p>{now.why}</p>
        {now.details.map((detail) => (
          <p key={detail}>{detail}</p>
        ))}
      </div>
    );
  }
  return null;
}

/** What was taken out last, to be put back with one touch. */
function Removed(): JSX.Element | null {
  const last = removed.value[removed.value.length - 1];
  if (!last || locked.value) return null;
  return (
    <p class="removed" role="status">
      <span>
        Removed: {last.line.draft.quantity > 1 && `${last.line.draft.quantity} × `}
        {last.line.title}
      </span>
      <button type="button" class="plain" aria-label={`Put back ${last.line.title}`} onClick={putBack}>
        Put back
      </button>
    </p>
  );
}

/** Brings the order into view, where it stands below the drinks. */
function showOrder(): void {
  document.getElementById(ORDER)?.scrollIntoView({ block: "start" });
}

const ORDER = "order";

function ringInWords(sendingNow: boolean, asking: boolean): string {
  if (sendingNow) return "Ringing in …";
  return asking ? "Asking the prices …" : "Ring in";
}

/** What was cancelled last, to be taken up again with one touch. */
function Aside(): JSX.Element | null {
  const last = aside.value;
  const held = menu.value;
  if (!last || !held || draft.value) return null;
  const words = spoken(sentence(held, last.draft)).replace(/,.*/s, "");
  return (
    <p class="removed" role="status">
      <span>Cancelled: {words}</span>
      <button type="button" class="plain" aria-label={`Take up again: ${words}`} onClick={takeUp}>
        Take up again
      </button>
    </p>
  );
}

/** What is to be paid, and the tax of it where the prices do not contain it. */
function Total(): JSX.Element {
  const rule = menu.value?.tax;
  const sum = totals.value;
  return (
    <div class="order-total">
      {rule && sum && !rule.included && lines.value.length > 0 && (
        <>
          <p>
            <span>Drinks</span> <span>{money.value(sum.net)}</span>
          </p>
          <p>
            <span>{taxName(rule)}, added</span> <span>{money.value(sum.tax)}</span>
          </p>
        </>
      )}
      <p>
        <button type="button" class="plain to-order" onClick={showOrder}>
          {counted(allCups.value, "drink")}
        </button>
        <span class="order-count">
          {counted(allCups.value, "drink")}
          {openMore.value && ", one still open"}
        </span>
        <strong>{sum ? money.value(sum.gross) : "–"}</strong>
      </p>
    </div>
  );
}

export function OrderList(): JSX.Element {
  const sendingNow = sending.value.state === "sending" || ringing.value;
  const button = useWished<HTMLButtonElement>("ring in", canRingIn.value);
  const asking = outdated.value !== undefined;
  return (
    <section class="order" id={ORDER} aria-label="The order">
      <label class="order-name">
        Name for calling
        <input
          type="text"
          autocomplete="off"
          maxLength={40}
          disabled={locked.value}
          value={customer.value}
          enterkeyhint="done"
          onKeyDown={(event) => {
            // Not rung in at once: on a tablet's own keyboard this key only means that the name is written.
            if (event.key !== "Enter" || event.isComposing) return;
            // Else the same press would go on to the button that has the focus by then.
            event.preventDefault();
            wish("ring in");
          }}
          onInput={(event) => {
            customer.value = event.currentTarget.value;
          }}
        />
      </label>
      {lines.value.length === 0 ? (
        <p class="order-empty">Nothing in the order yet.</p>
      ) : (
        <ul class="order-lines">
          {lines.value.map((line) => (
            <Line key={line.key} line={line} />
          ))}
        </ul>
      )}
      <div class="order-foot">
        <Settling />
        <Removed />
        <Aside />
        <Outcome />
        <Total />
        <button
          type="button"
          class="ring-in"
          ref={button}
          disabled={!canRingIn.value}
          // A key held down on the button before must not run on into a ring-in.
          onKeyDown={(event) => {
            if (event.repeat) event.preventDefault();
          }}
          onClick={ringInAll}
        >
          {ringInWords(sendingNow, asking)}
        </button>
      </div>
    </section>
  );
}
