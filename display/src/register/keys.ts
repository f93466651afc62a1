/**
 * Escape at the register goes one step back: from the choices to their word, from the word out of its choices, from
 * the line to the drinks (what was cancelled can be taken up again), from a receipt to the next order.
 */
import type { TargetedKeyboardEvent } from "preact";
import { PANEL } from "../line/sentenceline";
import { cancel, nextCustomer } from "./drink/opendrink";
import { draft } from "./drink/quoting";
import { open } from "./drink/state";
import { wish } from "./focus";
import { receipt } from "./order/order";

export function keys(event: TargetedKeyboardEvent<HTMLElement>): void {
  const { target } = event;
  if (event.key !== "Escape" || event.defaultPrevented || event.isComposing) return;
  if (!(target instanceof Element) || target.closest("dialog")) return;
  event.preventDefault();
  const word = document.querySelector<HTMLElement>('.word[aria-expanded="true"]');
  if (word && target.closest(`#${PANEL}`)) word.focus();
  else if (open.value !== null && target.closest(".sentence")) open.value = null;
  else if (receipt.value) nextCustomer();
  else if (draft.value) cancel();
  else wish("drinks");
}
