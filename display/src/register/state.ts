/** What the register's parts share about the line being rung in. */
import { signal } from "@preact/signals";
import type { Slot } from "./draft";

/** The word of the sentence whose choices are open. */
export const open = signal<Slot | null>(null);

/** The order line being edited again, by its key; null for a new one. */
export const editing = signal<string | null>(null);

/** True while another drink is being chosen for the line, keeping its other choices. */
export const changing = signal(false);
