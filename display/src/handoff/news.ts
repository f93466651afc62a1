/** Numbers that become ready, told once to those who hear the page. */
import { useEffect, useRef } from "preact/hooks";
import { news } from "../link/shop";
import type { Ticket } from "../wire.gen";
import { listed } from "../words/words";

/** Tells of the tickets that were not ready before; of those found ready at first nothing is told. */
export function useReadyNews(ready: readonly Ticket[], known: boolean): void {
  const told = useRef<ReadonlySet<string> | undefined>(undefined);
  const ids = ready.map((ticket) => ticket.id).join(" ");
  useEffect(() => {
    if (!known) return;
    const before = told.current;
    told.current = new Set(ready.map((ticket) => ticket.id));
    const fresh = before ? ready.filter((ticket) => !before.has(ticket.id)) : [];
    if (fresh.length > 0) news.value = `Ready: number ${listed(fresh.map((one) => String(one.number)))}`;
  }, [ids, known]);
}
