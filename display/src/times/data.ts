/** The day under review and the life of one of its orders, read from the service and kept fresh. */
import { useEffect, useState } from "preact/hooks";
import { ask, reason } from "../api";
import { linkState, queue } from "../shop";
import type { Life } from "../wire.gen";

/** While the shop works, a review is read anew at most this often, in ms. */
const FRESH_MS = 2000;

interface Read<Value> {
  readonly value: Value | undefined;
  readonly fault: string;
}

/** What `path` answers; read anew when the path changes, and, if `live`, when the queue moves. */
export function useAnswer<Value>(path: string | null, live: boolean): Read<Value> {
  const [read, setRead] = useState<Read<Value> & { path: string | null }>({
    value: undefined,
    fault: "",
    path: null,
  });
  const [position, setPosition] = useState<number | undefined>();
  const moved = queue.value?.position;
  useEffect(() => {
    if (!live || moved === position) return undefined;
    const timer = setTimeout(() => setPosition(moved), position === undefined ? 0 : FRESH_MS);
    return () => clearTimeout(timer);
  }, [live, moved, position]);
  useEffect(() => {
    if (path === null) return undefined;
    const stale = new AbortController();
    ask<Value>(path, stale.signal)
      .then((value) => setRead({ value, fault: "", path }))
      .catch((error: unknown) => {
        if (!stale.signal.aborted) setRead((before) => ({ ...before, fault: reason(error) }));
      });
    return () => stale.abort();
  }, [path, live ? position : 0, linkState.value]);
  return read.path === path ? read : { value: undefined, fault: read.fault };
}

/** One ticket's life, or nothing while none is chosen. */
export function useLife(order: string | null, live: boolean): Read<Life> {
  return useAnswer<Life>(order === null ? null : `/api/tickets/${order}/life`, live);
}
