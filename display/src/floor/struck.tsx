/** What was voided or altered at the register: whoever is at it is told, until somebody says it was seen. */
import { signal } from "@preact/signals";
import type { ComponentChildren, JSX } from "preact";
import type { Altered } from "../link/queue";
import { queue } from "../link/shop";
import type { QueueDrink } from "../wire.gen";
import { listed } from "../words/words";

const seen = signal<ReadonlySet<string>>(new Set());

interface ToldProps {
  readonly id: string;
  readonly title: string;
  readonly children: ComponentChildren;
}

function Told({ id, title, children }: ToldProps): JSX.Element {
  return (
    <li>
      <strong>{title}</strong>
      {children}
      <button
        type="button"
        aria-label={`${title}: Seen`}
        onClick={() => {
          seen.value = new Set([...seen.value, id]);
        }}
      >
        Seen
      </button>
    </li>
  );
}

/** "17 (Ana): a cup changed", "… a cup again: spilled", "… a cup is void". */
export function alteredTitle(cup: Altered): string {
  const whose = `${cup.number}${cup.name && ` (${cup.name})`}`;
  if (cup.now === null) return `${whose}: a cup is void`;
  return cup.again === "" ? `${whose}: a cup changed` : `${whose}: a cup again: ${cup.again}`;
}

export function Struck(): JSX.Element | null {
  const held = queue.value;
  if (!held) return null;
  const tickets = held.struck.filter((ticket) => !seen.value.has(ticket.id));
  const cups = held.altered.filter((cup) => !seen.value.has(cup.key));
  if (tickets.length + cups.length === 0) return null;
  return (
    <ul class="struck" role="alert">
      {tickets.map((ticket) => (
        <Told
          key={ticket.id}
          id={ticket.id}
          title={`${ticket.number} is void${ticket.name && ` (${ticket.name})`}`}
        >
          <s>{listed(ticket.drinks.map((drink) => held.builds[drink.build]?.title ?? "a drink"))}</s>
        </Told>
      ))}
      {cups.map((cup) => (
        <Told key={cup.key} id={cup.key} title={alteredTitle(cup)}>
          <span class="struck-cup">
            {cup.was !== cup.now && <s>{cup.was}</s>} {cup.now}
          </span>
        </Told>
      ))}
    </ul>
  );
}

/** The mark of a cup that is not what it was when rung in, or is made a second time. */
export function AlteredMark({ drink }: { drink: QueueDrink }): JSX.Element | null {
  if (drink.changed_at == null && drink.remade_at == null) return null;
  return (
    <span class="head-altered">⇄ {drink.remade_at == null ? "changed" : `again: ${drink.remade_why}`}</span>
  );
}
