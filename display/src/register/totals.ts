/** What the order comes to, by the quotes of its lines and the tax of the menu in force. */
import { computed } from "@preact/signals";
import { menu } from "../shop";
import { totalsOf } from "../tax";
import { amounts } from "./order";

/** Undefined until the menu, which has the rule of the tax, has come. */
export const totals = computed(() => {
  const rule = menu.value?.tax;
  return rule && totalsOf(amounts.value, rule);
});
