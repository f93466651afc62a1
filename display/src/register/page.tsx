/** The register: drinks at the left, the line as a sentence in the middle, the order at the right. */
import "../styles/register/register.css";
import "../styles/line.css";
import "../styles/register/order.css";
import "../styles/register/lists.css";
import "../styles/register/register-hand.css";
import { effect, signal } from "@preact/signals";
import type { JSX } from "preact";
import { useEffect } from "preact/hooks";
import { refusedWords, useBookFaults } from "../link/bookfaults";
import { linkState, menu, menuFault, news } from "../link/shop";
import { Fault } from "../screen/fault";
import { Top } from "../screen/top";
import { Counter } from "./drink/counter";
import { askAgain, draft } from "./drink/quoting";
import { changing } from "./drink/state";
import { DrinkList } from "./drinks";
import { keys } from "./keys";
import { receipt } from "./order/order";
import { OrderList } from "./order/orderlist";
import { ReceiptSheet } from "./order/receipt";
import { keepPrices } from "./order/repricing";
import { TodaysOrders } from "./rungin/todays";
import { SoldOutList } from "./soldout";

type Tab = "ring in" | "today" | "sold out";
const tab = signal<Tab>("ring in");
const TABS: readonly { readonly tab: Tab; readonly name: string }[] = [
  { tab: "ring in", name: "Ring in" },
  { tab: "today", name: "Today’s orders" },
  { tab: "sold out", name: "Sold out" },
];

/** What a hand is at: choosing a drink, bending the line, or reading the receipt. In the hand only that is shown. */
function phase(): "drinks" | "line" | "receipt" {
  if (receipt.value) return "receipt";
  return draft.value && !changing.value ? "line" : "drinks";
}

function RingIn(): JSX.Element {
  const now = phase();
  useEffect(() => window.scrollTo(0, 0), [now]);
  return (
    <main class={`register at-${now}`} onKeyDown={keys}>
      <h1 class="unseen">Register</h1>
      <DrinkList />
      <Counter />
      {receipt.value ? <ReceiptSheet receipt={receipt.value} /> : <OrderList />}
    </main>
  );
}

function Body(): JSX.Element {
  if (!menu.value) {
    return (
      <main class="register-wait">
        <p>{menuFault.value ?? "Reading the menu …"}</p>
      </main>
    );
  }
  if (tab.value === "today") {
    return (
      <TodaysOrders
        onChange={() => {
          tab.value = "ring in";
        }}
      />
    );
  }
  if (tab.value === "sold out") return <SoldOutList />;
  return <RingIn />;
}

/** A refused book changes nothing at the register; that it was refused is still worth a line. */
function BookNotice(): JSX.Element | null {
  const said = refusedWords(useBookFaults());
  return said ? (
    <p class="book-notice" role="status">
      {said}
    </p>
  ) : null;
}

export function RegisterPage(): JSX.Element {
  useEffect(() => {
    // A quote that failed with the link is asked for again once the link is back, and any once the book changes.
    const asking = effect(() => {
      void menu.value?.book;
      if (linkState.value === "live") askAgain.value = askAgain.peek() + 1;
    });
    const pricing = keepPrices();
    return () => {
      asking();
      pricing();
    };
  }, []);
  return (
    <div class="register-page">
      <Top here="Register">
        <div class="tabs" role="group" aria-label="At the register">
          {TABS.map((one) => (
            <button
              key={one.tab}
              type="button"
              aria-pressed={tab.value === one.tab}
              onClick={() => {
                tab.value = one.tab;
              }}
            >
              {one.name}
            </button>
          ))}
        </div>
      </Top>
      <p class="unseen" role="status">
        {news.value}
      </p>
      <Fault />
      <BookNotice />
      <Body />
    </div>
  );
}
