/** What an order holds, alike cups as one line: how many, what, bent how, noted what. */
import type { JSX } from "preact";
import type { OrderedDrink } from "../wire.gen";

/** "changed" of a single cup, "1 changed" of several. */
function alteredWords(count: number, of: number, what: string): string {
  return of === 1 ? what : `${count} ${what}`;
}

function Line({ line }: { line: OrderedDrink }): JSX.Element {
  const left = line.quantity - line.void;
  return (
    <li>
      {line.quantity > 1 && <b>{line.quantity} × </b>}
      {left === 0 ? <s>{line.title}</s> : line.title}
      {line.words.length > 0 && <em> {line.words.join(", ")}</em>}
      {line.note && <em> “{line.note}”</em>}
      {line.changed > 0 && <strong> {alteredWords(line.changed, line.quantity, "changed")}</strong>}
      {line.remade > 0 && <strong> {alteredWords(line.remade, line.quantity, "made again")}</strong>}
      {line.void > 0 && <strong> {left === 0 ? "void" : `${line.void} void`}</strong>}
    </li>
  );
}

export function Ordered({ lines }: { lines: readonly OrderedDrink[] }): JSX.Element {
  return (
    <ul class="ordered">
      {lines.map((line, index) => (
        <Line key={index} line={line} />
      ))}
    </ul>
  );
}
