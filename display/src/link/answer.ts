/** What an address of the service answers, kept fresh for as long as a screen shows it. */
import { effect } from "@preact/signals";
import { useEffect, useState } from "preact/hooks";
import { ask, reason, Unreachable } from "./api";
import { Paced } from "./paced";
import { linkState, queue } from "./shop";

/** While the shop works, an answer is read anew at most this often, in ms. */
const FRESH_MS = 2000;

/** An answer, once it has come, and why a newer one did not. */
export interface Read<Value> {
  readonly value: Value | undefined;
  readonly fault: string;
}

/** What `path` answers; read anew when the path or the link changes, after no answer, and, if `live`, when the queue moves. */
export function useAnswer<Value>(path: string | null, live: boolean): Read<Value> {
  const [read, setRead] = useState<Read<Value> & { path: string | null }>({
    value: undefined,
    fault: "",
    path: null,
  });
  useEffect(() => {
    if (path === null) return undefined;
    const stale = new AbortController();
    const reading = new Paced(async () => {
      try {
        const value = await ask<Value>(path, stale.signal);
        if (!stale.signal.aborted) setRead({ value, fault: "", path });
      } catch (error) {
        if (stale.signal.aborted) return;
        setRead((before) => ({ ...before, fault: reason(error) }));
        if (error instanceof Unreachable) reading.want();
      }
    }, FRESH_MS);
    const leave = effect(() => {
      void linkState.value;
      if (live) void queue.value?.position;
      reading.want();
    });
    return () => {
      leave();
      reading.stop();
      stale.abort();
    };
  }, [path, live]);
  return read.path === path ? read : { value: undefined, fault: read.fault };
}
