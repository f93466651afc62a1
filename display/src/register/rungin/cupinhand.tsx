/** A cup of an order that is rung in, while it is made another: which it is, what that comes to, and sending it. */
import { signal } from "@preact/signals";
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { drinkOf } from "../../line/draft";
import { money, perform, queue } from "../../link/shop";
import { cancel, done } from "../drink/opendrink";
import { draft, lastQuote, quoted } from "../drink/quoting";
import { cup, short } from "../drink/state";
import { wish } from "../focus";
import { differenceWords } from "./payback";
import { REMAKE_REASONS, Reasons } from "./reasons";

/** What is to be settled for cups that were changed or struck off, by the order's number, until somebody has. */
export const settling = signal<ReadonlyMap<number, number>>(new Map());

/** Notes what is to be paid for an order, or given back where it is below 0, on top of what already is. */
export function settle(number: number, difference: number): void {
  const sum = (settling.value.get(number) ?? 0) + difference;
  const others = [...settling.value].filter(([one]) => one !== number);
  settling.value = new Map(sum === 0 ? others : [...others, [number, sum]]);
}

/** The cup as the bar has it; undefined once it is void or has left the queue. */
function atTheBar(id: string) {
  const [order] = id.split(".");
  const drinks = queue.value?.tickets.find((ticket) => ticket.id === order)?.drinks ?? [];
  return drinks.find((drink) => drink.id === id && drink.state !== "void");
}

export function CupHead(): JSX.Element | null {
  const which = cup.value;
  if (!which) return null;
  const state = atTheBar(which.id)?.state;
  return (
    <p class="cup-head">
      <strong>
        A cup of number {which.number}
        {which.name && ` (${which.name})`}
      </strong>{" "}
      so far {which.was}
      {state === undefined && ", no longer at the bar"}
      {state === "making" && ", being made: it is thrown away and made again"}
      {state === "made" && ", made: it is thrown away and made again"}
    </p>
  );
}

export function SendCup(): JSX.Element | null {
  const which = cup.value;
  const line = draft.value;
  const [why, setWhy] = useState("Changed their mind");
  const [working, setWorking] = useState(false);
  if (!which || !line) return null;
  const now = quoted.value;
  const quote = now.state === "quote" && now.draft === line ? now.quote : null;
  const shown = quote ?? lastQuote(now);
  const state = atTheBar(which.id)?.state;
  const begun = state === "making" || state === "made";
  const difference = shown?.after === undefined || shown.due === undefined ? null : shown.after - shown.due;
  const words = difference === null ? "" : differenceWords(difference, money.value);
  const send = async (): Promise<void> => {
    setWorking(true);
    const { line: wanted, note } = drinkOf(line);
    const [verb, body] = begun
      ? ["remake", { line: wanted, note, reason: why.trim() }]
      : ["change", { line: wanted, note }];
    const said = `A cup of number ${which.number} is ${begun ? "made again as" : "now"} ${shown?.build.title ?? "another"}`;
    const sent = await perform(`/api/drinks/${which.id}/${verb}`, body, said);
    setWorking(false);
    if (!sent) return;
    settle(which.number, difference ?? 0);
    done();
    wish("drinks");
  };
  return (
    <div class="send-cup">
      {begun && <Reasons reasons={REMAKE_REASONS} why={why} onWhy={setWhy} />}
      <div class="add">
        <button type="button" class="plain" onClick={cancel}>
          Cancel
        </button>
        <button
          type="button"
          class="add-button"
          disabled={
            !quote || short.value.length > 0 || state === undefined || working || (begun && why.trim() === "")
          }
          onClick={() => void send()}
        >
          {begun ? "Make it again as this" : "Change this cup"} <strong>{words}</strong>
        </button>
      </div>
    </div>
  );
}

/** What is to be paid or given back, until it is said to be done. */
export function Settling(): JSX.Element {
  return (
    <>
      {[...settling.value].map(([number, difference]) => (
        <p key={number} class="strip-said strip-settle" role="status">
          <span>
            Number {number}: <strong>{differenceWords(difference, money.value)}</strong>
          </span>
          <button
            type="button"
            class="plain"
            aria-label={`Done: number ${number}`}
            onClick={() => settle(number, -difference)}
          >
            Done
          </button>
        </p>
      ))}
    </>
  );
}
