/** What every screen shares: the live connection, the menu, and the news that is read out. */
import { computed, effect, signal } from "@preact/signals";
import type { Done, Menu } from "../wire.gen";
import { moneyWriter } from "../words/money";
import { act, ask, reason } from "./api";
import { now, startTicking } from "./clock";
import { type Connection, follow, openLine } from "./connection";
import { MenuKeeper } from "./menukeeper";

const keeper = new MenuKeeper(() => ask<Menu>("/api/menu"));

/** The menu, undefined until it has come; `menuFault` tells why it did not. */
export const menu = keeper.menu;
export const menuFault = keeper.fault;

/** The one connection; opened by `openShop`. */
export const connection = signal<Connection | undefined>(undefined);

export const queue = computed(() => connection.value?.queue.value);
export const linkState = computed(() => connection.value?.state.value ?? "joining");
export const linkWords = computed(() => connection.value?.words.value ?? "joining the shop …");

/** What the status region says last, and what went wrong last (shown until the next act). */
export const news = signal("");
export const fault = signal("");

/** How the floor works, by the book; undefined until the menu has come. */
export const floor = computed(() => menu.value?.floor);

/** Writes money as this shop does; plain figures until the menu has come. */
export const money = computed(() => {
  const shop = menu.value?.shop;
  return shop ? moneyWriter(shop.currency, shop.minor_digits) : (minor: number) => String(minor);
});

/** The shop's time zone; the display's own until the menu has come. */
export const timeZone = computed(
  () => menu.value?.shop.time_zone ?? Intl.DateTimeFormat().resolvedOptions().timeZone,
);

/** Opens the connection, starts the clock, and keeps the menu of the book that the queue goes by. */
export function openShop(): void {
  startTicking();
  connection.value = follow(openLine(), now);
  void keeper.read();
  effect(() => {
    const book = queue.value?.book;
    const live = linkState.value === "live";
    if (live && book !== undefined) keeper.want(book);
  });
}

/** Sends a command of the bar; what came of it is told in `news`, what went wrong in `fault`. */
export async function perform(path: string, body: unknown, said: string): Promise<boolean> {
  fault.value = "";
  try {
    await act<Done>(path, body);
    news.value = said;
    return true;
  } catch (error) {
    fault.value = reason(error);
    return false;
  }
}
