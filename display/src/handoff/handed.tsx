/** What was handed off last: a number touched by mistake, or given to the wrong hands, is taken back with one touch. */
import type { JSX } from "preact";
import { useState } from "preact/hooks";
import { takeBack } from "../floor/acts";
import { now } from "../link/clock";
import { queue } from "../link/shop";
import { Dialog } from "../parts/dialog";
import { CallName } from "../parts/name";
import type { HandedOff } from "../wire.gen";
import { ago, callName, counted } from "../words/words";

/** As many stand in the strip; the rest is in the list. */
const SHOWN = 3;

function TakeBack({ order, long }: { order: HandedOff; long: boolean }): JSX.Element {
  const about = `${counted(order.drinks, "drink")}, ${ago((now.value - order.handed_off_at) / 1000)}`;
  const said = long ? `${order.name} ${about}` : callName(order.name);
  return (
    <button
      type="button"
      class="recall"
      aria-label={`Number ${order.number} ${said}, take back`}
      onClick={() => void takeBack(order)}
    >
      <span class="recall-number">{order.number}</span>{" "}
      {long ? (
        <span class="recall-title">
          <CallName of={order.name} whole /> {about}
        </span>
      ) : (
        <span class="recall-title">{callName(order.name)}</span>
      )}{" "}
      <span class="recall-word">take back</span>
    </button>
  );
}

export function Handed(): JSX.Element {
  const [open, setOpen] = useState(false);
  const handed = queue.value?.handed ?? [];
  return (
    <>
      <section class="bumped handed" aria-label="Handed off last">
        <h2>Handed off</h2>
        {handed.length === 0 ? (
          <p class="bumped-none">Nothing yet today.</p>
        ) : (
          <>
            <ul>
              {handed.slice(0, SHOWN).map((order) => (
                <li key={order.id}>
                  <TakeBack order={order} long={false} />
                </li>
              ))}
            </ul>
            <button type="button" class="recall-list" onClick={() => setOpen(true)}>
              All handed off
            </button>
          </>
        )}
      </section>
      {open && (
        <Dialog title="Handed off last" className="recalls" onClose={() => setOpen(false)}>
          <p>
            Touch a number to take it back: it stands ready again. Earlier ones of today are among the
            register’s orders.
          </p>
          <ul>
            {handed.map((order) => (
              <li key={order.id}>
                <TakeBack order={order} long />
              </li>
            ))}
          </ul>
        </Dialog>
      )}
    </>
  );
}
