/** What an order holds, alike cups as one line: how many, what, bent how, noted what. */
import type { JSX } from "preact";
import type { OrderedDrink } from "../wire.gen";

/** "void" of a single cup, "1 void" of several; nothing of none. */
function ofThem(count: number, line: OrderedDrink, what: string): string[] {
  if (count === 0) return [];
  return [count === line.quantity ? what : `${count} ${what}`];
}

function Line({ line }: { line: OrderedDrink }): JSX.Element {
  const left = line.quantity - line.void;
  const became = [
    ...ofThem(line.changed, line, "changed"),
    ...ofThem(line.remade, line, "made again"),
    ...ofThem(line.void, line, "void"),
  ];
  return (
    <li>
      {line.quantity > 1 && <b>{line.quantity} × </b>}
      {left === 0 ? <s>{line.title}</s> : line.title}
      {line.words.length > 0 && <em> {line.words.join(", ")}</em>}
      {line.note && <em> “{line.note}”</em>}
      {became.length > 0 && <strong> {became.join(", ")}</strong>}
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
