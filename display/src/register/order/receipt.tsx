/** The receipt of the order just rung in, with the number that will be called. */
import type { JSX } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { money, timeZone } from "../../link/shop";
import type { Receipt } from "../../wire.gen";
import { timeOfDay } from "../../words/words";
import { nextCustomer } from "../drink/opendrink";
import { Cups } from "../rungin/cups";

export function ReceiptSheet({ receipt }: { receipt: Receipt }): JSX.Element {
  const next = useRef<HTMLButtonElement>(null);
  const [cups, setCups] = useState(false);
  const sheet = useRef<HTMLElement>(null);
  useEffect(() => {
    // The number to call comes first, however long the order; the focus must not scroll it away.
    next.current?.focus({ preventScroll: true });
    sheet.current?.scrollTo({ top: 0 });
  }, [receipt.id]);
  const { totals } = receipt;
  const write = money.value;
  return (
    <>
      <section class="receipt" aria-label="Receipt" ref={sheet}>
        <p class="receipt-call" role="status">
          <span>Number</span> <strong data-test="receipt-number">{receipt.number}</strong>
          {receipt.name && <span>{receipt.name}</span>}
        </p>
        <ul>
          {receipt.lines.map((line, index) => (
            <li key={index}>
              <span>
                {line.quantity} × {line.title}
                {line.words.length > 0 && <em>{line.words.join(", ")}</em>}
                {line.note && <em class="receipt-note">“{line.note}”</em>}
              </span>
              <span>{write(line.amount)}</span>
            </li>
          ))}
        </ul>
        <dl>
          <div>
            <dt>Net</dt>
            <dd>{write(totals.net)}</dd>
          </div>
          <div>
            <dt>
              {totals.tax_name} {totals.tax_percent} %{totals.tax_included ? ", included" : ""}
            </dt>
            <dd>{write(totals.tax)}</dd>
          </div>
          <div class="receipt-total">
            <dt>Total</dt>
            <dd>{write(totals.gross)}</dd>
          </div>
        </dl>
        <p class="receipt-when">
          Rung in {timeOfDay(receipt.rung_at, timeZone.value)}, order {receipt.id}
        </p>
        <button type="button" class="plain receipt-change" onClick={() => setCups(true)}>
          Change a cup
        </button>
        <button type="button" class="ring-in" ref={next} onClick={nextCustomer}>
          Next order
        </button>
      </section>
      {cups && <Cups order={receipt} onClose={() => setCups(false)} onChange={() => setCups(false)} />}
    </>
  );
}
