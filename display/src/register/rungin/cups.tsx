/** The cups of an order that is rung in, one by one: each can be another, be made again, or be struck off. */
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import { takeBack } from "../../floor/acts";
import { reason, send } from "../../link/api";
import { money, perform, queue } from "../../link/shop";
import { Dialog } from "../../parts/dialog";
import type { Build, Difference, QueueDrink, Ticket } from "../../wire.gen";
import { changeCup, stuck } from "../drink/opendrink";
import { settle } from "./cupinhand";
import { differenceWords } from "./payback";
import { REMAKE_REASONS, Reasons, VOID_REASONS } from "./reasons";

interface Cup {
  readonly drink: QueueDrink;
  readonly build: Build | undefined;
}

const STATES: Record<QueueDrink["state"], string> = {
  waiting: "not begun",
  making: "being made",
  made: "made",
  void: "void",
};

/** "changed", "made again: spilled", where the cup is not what it was when rung in. */
export function becameWords(drink: QueueDrink): string {
  const again = drink.remade_at == null ? "" : `made again: ${drink.remade_why}`;
  return [drink.changed_at == null ? "" : "changed", again].filter((part) => part !== "").join(", ");
}

function titleOf({ build }: Cup): string {
  return build?.title ?? "A drink";
}

interface ActProps {
  readonly ticket: Ticket;
  readonly cup: Cup;
  readonly onDone: () => void;
}

/** Asks why, tells what it comes to, and sends it. */
function Striking({ ticket, cup, onDone }: ActProps): JSX.Element {
  const [why, setWhy] = useState("");
  const [told, setTold] = useState<Difference | null>(null);
  const [fault, setFault] = useState("");
  const [working, setWorking] = useState(false);
  const id = cup.drink.id;
  useEffect(() => {
    const stale = new AbortController();
    send<Difference>(`/api/drinks/${id}/difference`, {}, { signal: stale.signal }).then(setTold, (error) => {
      if (!stale.signal.aborted) setFault(reason(error));
    });
    return () => stale.abort();
  }, [id]);
  const words = told ? differenceWords(told.after - told.due, money.value) : "";
  const strike = async (): Promise<void> => {
    setWorking(true);
    const sent = await perform(
      `/api/drinks/${id}/void`,
      { reason: why.trim() },
      `A cup of number ${ticket.number} is void`,
    );
    setWorking(false);
    if (!sent) return;
    settle(ticket.number, told ? told.after - told.due : 0);
    onDone();
  };
  return (
    <>
      <p>
        {fault || (
          <>
            Then <strong>{words || "…"}</strong>. The bar sees it struck out at once. Say why:
          </>
        )}
      </p>
      <Reasons reasons={VOID_REASONS} why={why} onWhy={setWhy} />
      <button
        type="button"
        class="danger"
        disabled={why.trim() === "" || working || !told}
        onClick={() => void strike()}
      >
        Void {titleOf(cup)}
      </button>
    </>
  );
}

function Remaking({ ticket, cup, onDone }: ActProps): JSX.Element {
  const [why, setWhy] = useState("");
  const [working, setWorking] = useState(false);
  const remake = async (): Promise<void> => {
    setWorking(true);
    const sent = await perform(
      `/api/drinks/${cup.drink.id}/remake`,
      { reason: why.trim() },
      `A cup of number ${ticket.number} is to be made again`,
    );
    setWorking(false);
    if (sent) onDone();
  };
  return (
    <>
      <p>
        The cup is thrown away and made again, before what was rung in after it. Nothing is to be paid. Say
        why:
      </p>
      <Reasons reasons={REMAKE_REASONS} why={why} onWhy={setWhy} />
      <button
        type="button"
        class="danger"
        disabled={why.trim() === "" || working}
        onClick={() => void remake()}
      >
        Make {titleOf(cup)} again
      </button>
    </>
  );
}

interface CupRowProps extends ActProps {
  readonly onChange: () => void;
}

function CupRow({ ticket, cup, onDone, onChange }: CupRowProps): JSX.Element {
  const [act, setAct] = useState<"void" | "remake" | null>(null);
  const { drink, build } = cup;
  const begun = drink.state === "making" || drink.state === "made";
  const words = build?.words ?? [];
  const became = becameWords(drink);
  const which = `, cup ${drink.id.split(".")[1]}`;
  return (
    <li>
      <p class="cups-what">
        <strong>{drink.state === "void" ? <s>{titleOf(cup)}</s> : titleOf(cup)}</strong>
        {words.length > 0 && <span> {words.join(", ")}</span>}
        {drink.note && <span> “{drink.note}”</span>}
        <em>
          {STATES[drink.state]}
          {became && `, ${became}`}
        </em>
      </p>
      {drink.state !== "void" && (
        <div class="buttons">
          {build && (
            <button type="button" onClick={onChange}>
              {begun ? "Make again as another" : "Change"}
              <span class="unseen">
                {" "}
                {titleOf(cup)}
                {which}
              </span>
            </button>
          )}
          {begun && (
            <button type="button" aria-expanded={act === "remake"} onClick={() => setAct("remake")}>
              Make again
              <span class="unseen">
                {" "}
                {titleOf(cup)}
                {which}
              </span>
            </button>
          )}
          <button type="button" aria-expanded={act === "void"} onClick={() => setAct("void")}>
            Void
            <span class="unseen">
              {" "}
              {titleOf(cup)}
              {which}
            </span>
          </button>
        </div>
      )}
      {act === "void" && <Striking ticket={ticket} cup={cup} onDone={onDone} />}
      {act === "remake" && begun && <Remaking ticket={ticket} cup={cup} onDone={onDone} />}
    </li>
  );
}

interface CupsProps {
  readonly order: { readonly id: string; readonly number: number };
  readonly onClose: () => void;
  /** A cup is open in the middle of the register now. */
  readonly onChange: () => void;
}

/** As the bar has them at this moment; an order that was handed off has first to be taken back. */
export function Cups({ order, onClose, onChange }: CupsProps): JSX.Element {
  const held = queue.value;
  const ticket = held?.tickets.find((one) => one.id === order.id);
  const handed = held?.handed.some((one) => one.id === order.id) ?? false;
  return (
    <Dialog title={`The cups of number ${order.number}`} onClose={onClose} className="cups">
      {stuck.value && (
        <p class="refusal" role="alert">
          {stuck.value}
        </p>
      )}
      {ticket && held && (
        <ul class="cups-list">
          {ticket.drinks.map((drink) => {
            const build = held.builds[drink.build];
            const was = build ? [build.title, ...build.words].join(", ") : "";
            const { number, name } = ticket;
            return (
              <CupRow
                key={drink.id}
                ticket={ticket}
                cup={{ drink, build }}
                onDone={onClose}
                onChange={() => {
                  if (build && changeCup({ id: drink.id, number, name, was }, build.line, drink.note))
                    onChange();
                }}
              />
            );
          })}
        </ul>
      )}
      {!ticket && (
        <p>
          {handed
            ? "It was handed off. Take the hand-off back first: it then stands ready, and a cup can be made again."
            : "It is no longer at the bar."}
        </p>
      )}
      {handed && !ticket && (
        <button type="button" onClick={() => void takeBack(order)}>
          Take back the hand-off
        </button>
      )}
    </Dialog>
  );
}
