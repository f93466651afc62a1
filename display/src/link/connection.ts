/**
 * The one live connection: the only importer of the socket client. It joins with the last position seen,
 * so that a break costs nothing; it beats every few seconds, so that silence is noticed and told in words.
 */
import { computed, type ReadonlySignal, signal } from "@preact/signals";
import { io, type Socket } from "socket.io-client";
import type { Change, Follow, Snapshot } from "../wire.gen";
import { ago } from "../words/words";
import { type ServiceClock, clock as theClock } from "./clock";
import { applyChange, fromSnapshot, type Queue } from "./queue";

/** Milliseconds between two heartbeats; three missed ones make the queue stale. */
export const BEAT_MS = 4000;
const MISSED_BEATS = 3;
/** Pause before joining again after the service cut us off. */
const REJOIN_MS = 1500;

/** What the connection needs of a socket, so that tests can give it one of their own. */
export interface Line {
  on(event: string, heard: (...said: never[]) => void): unknown;
  emit(event: string, ...said: unknown[]): unknown;
  readonly connected: boolean;
  disconnect(): unknown;
}

/** How things stand with the service. */
export type LinkState = "joining" | "live" | "stale";

/** The live queue and how fresh it is. */
export interface Connection {
  /** Undefined until the first snapshot. */
  readonly queue: ReadonlySignal<Queue | undefined>;
  readonly state: ReadonlySignal<LinkState>;
  /** "live", "joining …" or "seen 14 s ago", for people. */
  readonly words: ReadonlySignal<string>;
  /** Called with each change as it is applied; returns the way to stop listening. */
  onChange(heard: (before: Queue, after: Queue) => void): () => void;
  close(): void;
}

/** Joins over `line` and keeps the queue. `tick` is a signal that moves each second. */
export function follow(
  line: Line,
  tick: ReadonlySignal<number>,
  clock: ServiceClock = theClock,
  local: () => number = () => clock.local(),
): Connection {
  const queue = signal<Queue | undefined>(undefined);
  const seenAt = signal<number | undefined>(undefined);
  const connected = signal(false);
  const listeners = new Set<(before: Queue, after: Queue) => void>();

  const join = (): void => {
    const held = queue.value;
    const from: Follow = { since: held?.position ?? null, store: held?.store ?? null };
    line.emit("follow", from);
  };
  const seen = (): void => {
    seenAt.value = local();
  };
  const take = (after: Queue): void => {
    const before = queue.value;
    queue.value = after;
    if (before && before !== after) for (const heard of listeners) heard(before, after);
  };
  const beat = (): void => {
    if (!line.connected) return;
    const sent = local();
    line.emit("clock", (answer: { now: number }) => {
      clock.learn({ sent, received: local(), service: answer.now });
      seen();
    });
  };

  line.on("connect", () => {
    connected.value = true;
    clock.forget();
    beat();
    join();
  });
  line.on("disconnect", () => {
    connected.value = false;
  });
  line.on("snapshot", (snapshot: Snapshot) => {
    clock.hint(snapshot.now);
    seen();
    take(fromSnapshot(snapshot));
  });
  line.on("change", (change: Change) => {
    seen();
    const before = queue.value;
    if (!before) return join();
    const applied = applyChange(before, change);
    if (applied.gap) return join();
    take(applied.queue);
  });
  const beating = setInterval(beat, BEAT_MS);

  const silent = computed(() => {
    void tick.value;
    return seenAt.value === undefined ? undefined : (local() - seenAt.value) / 1000;
  });
  const state = computed<LinkState>(() => {
    if (silent.value === undefined || queue.value === undefined) return "joining";
    const quiet = silent.value * 1000 > BEAT_MS * MISSED_BEATS;
    return quiet || (!connected.value && silent.value > 2) ? "stale" : "live";
  });
  const words = computed(() => {
    if (state.value === "joining") return "joining the shop …";
    return state.value === "live" ? "live" : `link down, seen ${ago(silent.value ?? 0)}`;
  });

  return {
    queue,
    state,
    words,
    onChange(heard) {
      listeners.add(heard);
      return () => listeners.delete(heard);
    },
    close() {
      clearInterval(beating);
      line.disconnect();
    },
  };
}

/** Opens the socket to the service that served this page. */
export function openLine(): Line {
  const socket: Socket = io({ transports: ["websocket"], reconnectionDelayMax: 2000 });
  // The client does not come back by itself from a parting that the service asked for; we want to.
  socket.on("disconnect", (why) => {
    if (why === "io server disconnect") setTimeout(() => socket.connect(), REJOIN_MS);
  });
  return socket as unknown as Line;
}
