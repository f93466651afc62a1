/** The menu of the book in force: read until it is the one that the queue goes by. */
import { type Signal, signal } from "@preact/signals";
import type { Menu } from "../wire.gen";
import { reason } from "./api";

/** Pauses before the menu is read again after a failure, or while it is not yet the one wanted, in ms. */
export const MENU_PAUSES: readonly number[] = [250, 1000, 5000];

/** Keeps one menu. A failed reading is told in `fault` and made good by itself. */
export class MenuKeeper {
  /** Undefined until it has come. */
  readonly menu: Signal<Menu | undefined> = signal(undefined);
  readonly fault: Signal<string | undefined> = signal(undefined);
  private wanted: string | undefined;
  private reading = false;
  private tries = 0;
  private timer: ReturnType<typeof setTimeout> | undefined;

  constructor(private readonly ask: () => Promise<Menu>) {}

  /** The queue goes by this book; a menu of another is read again until it is this one's. Said as often as liked. */
  want(book: string): void {
    if (this.wanted === book && this.timer !== undefined) return;
    if (this.wanted !== book) this.tries = 0;
    this.wanted = book;
    if (this.menu.peek()?.book !== book) void this.read();
  }

  /** Reads the menu (again), unless that is under way. */
  async read(): Promise<void> {
    if (this.reading) return;
    this.reading = true;
    clearTimeout(this.timer);
    this.timer = undefined;
    try {
      this.menu.value = await this.ask();
      this.fault.value = undefined;
    } catch (error) {
      this.fault.value = reason(error);
    } finally {
      this.reading = false;
    }
    this.makeGood();
  }

  /** The book may have changed while its menu was on its way, or the answer never have come. */
  private makeGood(): void {
    const book = this.menu.peek()?.book;
    if (this.fault.peek() === undefined && (this.wanted === undefined || this.wanted === book)) {
      this.tries = 0;
      return;
    }
    const pause = MENU_PAUSES[Math.min(this.tries, MENU_PAUSES.length - 1)];
    this.tries += 1;
    this.timer = setTimeout(() => void this.read(), pause);
  }
}
