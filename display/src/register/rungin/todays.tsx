/** Today's orders: where each stands, what is to be settled of it, its cups, and voiding one with a reason. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { takeBack } from "../../floor/acts";
import { Ordered } from "../../line/ordered";
import { useAnswer } from "../../link/answer";
import { money, perform, timeZone } from "../../link/shop";
import { Dialog } from "../../parts/dialog";
import type { OrderRow, Orders } from "../../wire.gen";
import { timeOfDay } from "../../words/words";
import { Settling } from "./cupinhand";
import { Cups } from "./cups";
import { backWords, payBack } from "./payback";
import { Reasons, VOID_REASONS } from "./reasons";

function Void({ order, onClose }: { order: OrderRow; onClose: () => void }): JSX.Element {
  const [why, setWhy] = useState("");
  const [working, setWorking] = useState(false);
  const send = async (): Promise<void> => {
    setWorking(true);
    const done = await perform(
      `/api/tickets/${order.id}/void`,
      { reason: why.trim() },
      `Number ${order.number} is void`,
    );
    setWorking(false);
    if (done) onClose();
  };
  return (
    <Dialog title={`Void number ${order.number}`} onClose={onClose}>
      <Ordered lines={order.lines} />
      <p>The bar sees it struck out at once.</p>
      <p>
        What is still due of it, <strong>{money.value(order.due)}</strong>, is then to be paid back. Say why:
      </p>
      <Reasons reasons={VOID_REASONS} why={why} onWhy={setWhy} />
      <button
        type="button"
        class="danger"
        disabled={why.trim() === "" || working}
        onClick={() => void send()}
      >
        Void number {order.number}
      </button>
    </Dialog>
  );
}

/** `onChange`: a cup of one of them is open in the middle of the register now. */
export function TodaysOrders({ onChange }: { onChange: () => void }): JSX.Element {
  const { value: orders, fault } = useAnswer<Orders>("/api/orders", true);
  const [voiding, setVoiding] = useState<OrderRow | null>(null);
  const [cups, setCups] = useState<OrderRow | null>(null);
  const rows = [...(orders?.orders ?? [])].reverse();
  return (
    <main class="list-page">
      <h1>Today’s orders</h1>
      <Settling />
      {fault && (
        <p class="fault" role="alert">
          {fault}
        </p>
      )}
      {rows.length === 0 ? (
        <p class="order-empty">{orders ? "No orders yet today." : "Reading today’s orders …"}</p>
      ) : (
        <div class="scroll-x">
          <table class="ledger todays">
            <thead>
              <tr>
                <th scope="col">No.</th>
                <th scope="col">Rung in</th>
                <th scope="col">Name</th>
                <th scope="col">Drinks</th>
                <th scope="col">State</th>
                <th scope="col" class="figures">
                  Total
                </th>
                <th scope="col" class="figures">
                  Due
                </th>
                <th scope="col" class="figures">
                  To settle
                </th>
                <th scope="col">
                  <span class="unseen">Change, void or take back</span>
                </th>
              </tr>
            </thead>
            <tbody>
              {rows.map((order) => (
                <tr
                  key={order.id}
                  class={`${order.state === "void" ? "void" : ""}${payBack(order) === 0 ? "" : " owed"}`}
                >
                  <th scope="row">{order.number}</th>
                  <td class="at">{timeOfDay(order.rung_at, timeZone.value)}</td>
                  <td class="name">{order.name || "–"}</td>
                  <td class="what">
                    <Ordered lines={order.lines} />
                  </td>
                  <td class="state">
                    {order.state}
                    {order.void_reason && <small> {order.void_reason}</small>}
                  </td>
                  <td class="figures gross">{money.value(order.gross)}</td>
                  <td class="figures due" data-name="due">
                    {money.value(order.due)}
                  </td>
                  <td class="figures back" data-name="to settle">
                    {backWords(order, money.value)}
                  </td>
                  <td class="acts">
                    {order.state === "handed off" && (
                      <button
                        type="button"
                        class="plain"
                        aria-label={`Take back the hand-off of number ${order.number}`}
                        onClick={() => void takeBack(order)}
                      >
                        Take back
                      </button>
                    )}
                    {order.state !== "void" && (
                      <button
                        type="button"
                        class="plain"
                        aria-label={`Change a cup of number ${order.number}`}
                        onClick={() => setCups(order)}
                      >
                        Change a cup
                      </button>
                    )}
                    {order.state !== "void" && order.state !== "handed off" && (
                      <button
                        type="button"
                        class="plain"
                        aria-label={`Void number ${order.number}`}
                        onClick={() => setVoiding(order)}
                      >
                        Void
                      </button>
                    )}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {cups && <Cups order={cups} onClose={() => setCups(null)} onChange={onChange} />}
      {voiding && <Void order={voiding} onClose={() => setVoiding(null)} />}
    </main>
  );
}
