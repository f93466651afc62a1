/** The customers' own board: no buttons to work the shop with, and no word of what only staff can mend. */
import type { JSX, RefObject } from "preact";
import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import { now } from "../link/clock";
import { floor, linkState, menu, news, queue } from "../link/shop";
import { CallName } from "../parts/name";
import { fitted } from "../screen/fit";
import type { Ticket } from "../wire.gen";
import { BeingMade } from "./making";
import { useReadyNews } from "./news";
import { type Grid, gridFor, largestGrid, onBoard, pagesOf } from "./pages";

/** So long a page stands, in ms: enough to find a number among twenty. */
export const TURN_MS = 8000;

/** The largest grid in the box, measured again when it, or the type, is another size. */
function useLargest(box: RefObject<HTMLElement | null>): Grid {
  const [largest, setLargest] = useState<Grid>({ columns: 3, rows: 3 });
  useLayoutEffect(() => {
    const held = box.current;
    if (!held) return undefined;
    const measure = (): void => {
      const text = Number.parseFloat(getComputedStyle(held).getPropertyValue("--fit-text")) || 24;
      const next = largestGrid(held.clientWidth, held.clientHeight, text);
      setLargest((was) => (was.columns === next.columns && was.rows === next.rows ? was : next));
    };
    measure();
    const watcher = new ResizeObserver(measure);
    watcher.observe(held);
    return () => watcher.disconnect();
  }, [fitted.value]);
  return largest;
}

/** The page in view, turned by itself unless held; whoever is newly ready is on the first, so that comes at once. */
function useTurning(pages: number, newest: string): { page: number; held: boolean; hold: () => void } {
  const [page, setPage] = useState(0);
  const [held, setHeld] = useState(false);
  useEffect(() => {
    setPage(0);
    if (pages < 2 || held) return undefined;
    const timer = setInterval(() => setPage((was) => (was + 1) % pages), TURN_MS);
    return () => clearInterval(timer);
  }, [pages, newest, held]);
  return {
    page: Math.min(page, pages - 1),
    held,
    hold: () => setHeld(!held),
  };
}

function PageMark({ page, of, held, hold }: { page: number; of: number; held: boolean; hold: () => void }) {
  if (of < 2) return null;
  const words = `page ${page + 1} of ${of}`;
  return (
    <button
      type="button"
      class="board-pages"
      aria-pressed={held}
      aria-label={`${words}, hold`}
      onClick={hold}
    >
      <svg viewBox={`0 0 ${of * 14} 10`} aria-hidden="true">
        {Array.from({ length: of }, (_, at) => (
          <circle key={at} cx={at * 14 + 7} cy="5" r={at === page ? 4.5 : 2} />
        ))}
      </svg>
      {words}
      {held && " · held"}
    </button>
  );
}

function Ready({ ticket }: { ticket: Ticket }): JSX.Element {
  return (
    <li class="ready" aria-label={`Number ${ticket.number} ready${ticket.name ? `, ${ticket.name}` : ""}`}>
      <span class="board-number" style={{ "--digits": String(ticket.number).length }}>
        {ticket.number}
      </span>
      <CallName of={ticket.name} class="board-name" />
    </li>
  );
}

export function Board(): JSX.Element {
  const box = useRef<HTMLDivElement>(null);
  const largest = useLargest(box);
  const tickets = queue.value?.tickets ?? [];
  const ready = onBoard(tickets, now.value, floor.value?.board_keeps_s);
  useReadyNews(ready, queue.value !== undefined);
  const pages = pagesOf(ready, largest.columns * largest.rows);
  const { page, held, hold } = useTurning(pages.length, ready[0]?.id ?? "");
  const grid = pages.length > 1 ? largest : gridFor(ready.length, largest);
  return (
    <div class="board-page board-customers">
      <header class="board-top">
        <h1>{menu.value?.shop.name ?? ""}</h1>
        {/* For staff who know it: what is shown may be old. */}
        {linkState.value !== "live" && (
          <svg class="board-old" viewBox="0 0 12 12" aria-hidden="true">
            <path d="M6 1.5 L11 10.5 H1 Z" />
          </svg>
        )}
      </header>
      <main class="board">
        <BeingMade tickets={tickets} none="" />
        <section class="board-ready" aria-labelledby="ready">
          <div class="board-head">
            <h2 id="ready">Ready</h2>
            <PageMark page={page} of={pages.length} held={held} hold={hold} />
          </div>
          <div class="board-room" ref={box}>
            {ready.length === 0 ? (
              <p class="board-none">Your number appears here.</p>
            ) : (
              <ul style={{ "--columns": grid.columns, "--rows": grid.rows }}>
                {pages[page]?.map((ticket) => (
                  <Ready key={ticket.id} ticket={ticket} />
                ))}
              </ul>
            )}
          </div>
        </section>
      </main>
      <p class="unseen" role="status">
        {news.value}
      </p>
    </div>
  );
}
