/** What the order comes to with the open drink, by the quotes of its lines and the tax of the menu in force. */
import { computed } from "@preact/signals";
import { menu } from "../../link/shop";
import { totalsOf } from "../../words/tax";
import { forOrder } from "../drink/opendrink";
import { draft, lastQuote, quoted } from "../drink/quoting";
import { editing } from "../drink/state";
import { amounts, cups, lines, locked } from "./order";

/** Whether the open drink is rung in with the order, as one more line of it. */
export const openMore = computed(() => forOrder.value && !locked.value && editing.value === null);

/** Cups in the order, with the open drink's. */
export const allCups = computed(() => cups.value + (openMore.value ? (draft.value?.quantity ?? 0) : 0));

/** What each line comes to, the open one as it is quoted last. */
const allAmounts = computed(() => {
  const line = draft.value;
  const price = lastQuote(quoted.value)?.price;
  if (!forOrder.value || locked.value || !line || price === undefined) return amounts.value;
  const open = price * line.quantity;
  if (editing.value === null) return [...amounts.value, open];
  return lines.value.map((one, index) => (one.key === editing.value ? open : (amounts.value[index] ?? 0)));
});

/** Undefined until the menu, which has the rule of the tax, has come. */
export const totals = computed(() => {
  const rule = menu.value?.tax;
  return rule && totalsOf(allAmounts.value, rule);
});
