/** Tickets voided at the register: whoever is at their drinks is told to stop, until somebody says it was seen. */
import { signal } from "@preact/signals";
import type { JSX } from "preact";
import { queue } from "../shop";
import { listed } from "../words";

const seen = signal<ReadonlySet<string>>(new Set());

export function Struck(): JSX.Element | null {
  const held = queue.value;
  const open = held?.struck.filter((ticket) => !seen.value.has(ticket.id)) ?? [];
  if (!held || open.length === 0) return null;
  return (
    <ul class="struck" role="alert">
      {open.map((ticket) => (
        <li key={ticket.id}>
          <strong>
            {ticket.number} is void{ticket.name && ` (${ticket.name})`}
          </strong>
          <s>{listed(ticket.drinks.map((drink) => held.builds[drink.build]?.title ?? "a drink"))}</s>
          <button
            type="button"
            aria-label={`Number ${ticket.number} is void: seen`}
            onClick={() => {
              seen.value = new Set([...seen.value, ticket.id]);
            }}
          >
            Seen
          </button>
        </li>
      ))}
    </ul>
  );
}
