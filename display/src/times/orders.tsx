/** The orders of the day, each of which can be looked into. */
import type { JSX } from "preact";
import { Ordered } from "../line/ordered";
import { useAnswer } from "../link/answer";
import { timeZone } from "../link/shop";
import type { Life, OrderRow } from "../wire.gen";
import { minutes, timeOfDay } from "../words/words";
import { Strip } from "./strip";

const took = (from: number, to: number | null): string => (to === null ? "–" : minutes((to - from) / 1000));

function LifeRow({ order, live }: { order: OrderRow; live: boolean }): JSX.Element {
  const { value, fault } = useAnswer<Life>(`/api/tickets/${order.id}/life`, live);
  return (
    <tr class="life-row">
      <td colSpan={7}>
        {value ? <Strip life={value} /> : <p class="nothing">{fault || "Reading its life …"}</p>}
      </td>
    </tr>
  );
}

interface ListProps {
  readonly orders: readonly OrderRow[];
  readonly chosen: string | null;
  readonly live: boolean;
  readonly onChoose: (order: string | null) => void;
}

export function OrdersOfDay({ orders, chosen, live, onChoose }: ListProps): JSX.Element {
  return (
    <div class="scroll-x">
      <table class="ledger orders-of-day">
        <thead>
          <tr>
            <th scope="col">No.</th>
            <th scope="col">Rung in</th>
            <th scope="col">Drinks</th>
            <th scope="col">State</th>
            <th scope="col" class="figures">
              To ready
            </th>
            <th scope="col" class="figures">
              To hand-off
            </th>
            <th scope="col">
              <span class="unseen">Its life</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {orders.flatMap((order) => {
            const open = chosen === order.id;
            const row = (
              <tr key={order.id} class={order.state === "void" ? "void" : ""}>
                <th scope="row">{order.number}</th>
                <td>{timeOfDay(order.rung_at, timeZone.value)}</td>
                <td>
                  <Ordered lines={order.lines} />
                  {order.name && <small> {order.name}</small>}
                </td>
                <td class="state">
                  {order.state}
                  {order.void_reason && <small> {order.void_reason}</small>}
                </td>
                <td class="figures">{took(order.rung_at, order.ready_at)}</td>
                <td class="figures">{took(order.rung_at, order.handed_off_at)}</td>
                <td>
                  <button
                    type="button"
                    class="plain"
                    aria-expanded={open}
                    aria-label={`${open ? "Close the life" : "Life"} of number ${order.number}`}
                    onClick={() => onChoose(open ? null : order.id)}
                  >
                    {open ? "Close" : "Life"}
                  </button>
                </td>
              </tr>
            );
            return open ? [row, <LifeRow key={`${order.id}-life`} order={order} live={live} />] : [row];
          })}
        </tbody>
      </table>
    </div>
  );
}
