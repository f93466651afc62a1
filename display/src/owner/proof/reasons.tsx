/** Why combinations are refused: how many for each reason, whether that is meant, and what would change it. */
import type { JSX } from "preact";
import type { Reason } from "../../wire.gen";
import { figures, pct } from "./prooffigures";

/** As many drinks as are named at once. */
const NAMED = 4;

/** The drinks that a reason meets, the most first: "Taro Milk Tea 1,739, Cocoa 302 and 3 more". */
export function drinksNamed(drinks: Reason["drinks"]): string {
  const named = drinks.slice(0, NAMED).map((one) => `${one.name} ${figures(one.count)}`);
  const left = drinks.length - named.length;
  return left > 0 ? `${named.join(", ")} and ${left} more` : named.join(", ");
}

export function Reasons({ reasons }: { reasons: readonly Reason[] }): JSX.Element {
  return (
    <ul class="reasons">
      {reasons.map((one) => (
        <li key={one.code}>
          <p class="reason-count">
            <b>{figures(one.count)}</b>
            <small>{pct(one.share_pct)} of all</small>
          </p>
          <div>
            <h3>{one.title}</h3>
            <p>{one.meaning}</p>
            <p>{one.cure}</p>
            <p>
              <small>{drinksNamed(one.drinks)}</small>
            </p>
          </div>
        </li>
      ))}
    </ul>
  );
}
