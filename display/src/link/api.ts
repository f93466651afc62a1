/**
 * Commands and questions to the service over HTTP. A command carries a key of its own, so that sending
 * it again after a lost answer can never do it twice; a refusal comes back as words for people.
 */
import type { Problem } from "../wire.gen";

/** The service understood and said no (a 4xx status): nothing was done. An RFC 9457 problem document. */
export class Refused extends Error {
  constructor(readonly problem: Problem) {
    super(problem.detail || problem.title);
  }
}

/** No answer came, or a 5xx one that only tells of a fault: what was sent may or may not have been done. */
export class Unreachable extends Error {}

/** How a command is sent. */
export interface Sending {
  /** The same key for the same intent, however often it is tried. */
  readonly key?: string;
  /** Pauses before each further try, in ms. None: one try only. */
  readonly pauses?: readonly number[];
  /** Told before each further try, with how many tries have failed. */
  readonly onRetry?: (failed: number) => void;
  readonly signal?: AbortSignal;
  /** POST unless said. */
  readonly method?: "POST" | "PUT";
}

/** Pauses of an act at the bar: a short break of the link goes unnoticed, a long one is told. */
export const BAR_PAUSES: readonly number[] = [250, 750, 2000, 4000];

/** Pauses of a ring-in: someone stands there waiting, but the order must not be lost. */
export const RING_IN_PAUSES: readonly number[] = [500, 1000, 2000, 4000, 8000, 8000, 8000];

/** How long an answer is waited for, in ms: the shop's own take some milliseconds, the owner's may resolve a menu. */
export const ANSWER_MS = 5000;
export const OWNER_ANSWER_MS = 30_000;
const OWNER = "/api/owner/";
const NO_ANSWER = "No answer from the service. Try again.";

/** A fresh Idempotency-Key: a random UUID, also on plain http, where crypto.randomUUID is missing. */
export function newKey(source: Pick<Crypto, "getRandomValues"> & Partial<Crypto> = crypto): string {
  if (typeof source.randomUUID === "function") return source.randomUUID();
  const bytes = source.getRandomValues(new Uint8Array(16));
  // RFC 9562 section 5.4: four bits of version 4, two bits of variant, the rest random.
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x40;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}

/** Asks for something; never tried again by itself. */
export function ask<Answer>(path: string, signal?: AbortSignal): Promise<Answer> {
  return once<Answer>(path, { method: "GET", ...(signal ? { signal } : {}) });
}

/** Sends a command or a question with a body, trying again with the same key when no answer came. */
export async function send<Answer>(path: string, body: unknown, sending: Sending = {}): Promise<Answer> {
  const request: RequestInit = {
    method: sending.method ?? "POST",
    headers: {
      "Content-Type": "application/json",
      ...(sending.key === undefined ? {} : { "Idempotency-Key": sending.key }),
    },
    body: JSON.stringify(body),
    ...(sending.signal ? { signal: sending.signal } : {}),
  };
  const pauses = sending.pauses ?? [];
  for (let failed = 0; ; failed += 1) {
    try {
      return await once<Answer>(path, request);
    } catch (error) {
      const pause = pauses[failed];
      if (!(error instanceof Unreachable) || pause === undefined) throw error;
      sending.onRetry?.(failed + 1);
      await new Promise((resume) => setTimeout(resume, pause));
    }
  }
}

/** A command of the bar, with a key of its own and the bar's pauses. */
export function act<Answer>(path: string, body: unknown = {}): Promise<Answer> {
  return send<Answer>(path, body, { key: newKey(), pauses: BAR_PAUSES });
}

/** A signal that calls a request off after `ms`, or with the caller's own; `late` tells that it was the time. */
function limited(ms: number, caller: AbortSignal | null | undefined) {
  const limit = new AbortController();
  const state = { late: false };
  const timer = setTimeout(() => {
    state.late = true;
    limit.abort();
  }, ms);
  const off = (): void => limit.abort();
  if (caller?.aborted) off();
  caller?.addEventListener("abort", off);
  const end = (): void => {
    clearTimeout(timer);
    caller?.removeEventListener("abort", off);
  };
  return { signal: limit.signal, state, end };
}

async function once<Answer>(path: string, request: RequestInit): Promise<Answer> {
  const limit = limited(path.startsWith(OWNER) ? OWNER_ANSWER_MS : ANSWER_MS, request.signal);
  try {
    // The time limit holds until the whole answer is read: a link can die in the middle of it.
    const response = await fetch(path, { ...request, signal: limit.signal });
    if (response.ok) return (await response.json()) as Answer;
    const problem = await problemOf(response);
    // A service that met a fault may have met it after the deed; the key makes asking again safe.
    if (response.status >= 500) throw new Unreachable(problem.detail || problem.title);
    throw new Refused(problem);
  } catch (error) {
    if (error instanceof Refused || error instanceof Unreachable) throw error;
    if (error instanceof DOMException && error.name === "AbortError" && !limit.state.late) throw error;
    throw new Unreachable(NO_ANSWER);
  } finally {
    limit.end();
  }
}

async function problemOf(response: Response): Promise<Problem> {
  const unnamed: Problem = {
    type: "about:blank",
    title: `The service answered ${response.status}`,
    status: response.status,
    detail: "",
    errors: [],
  };
  if (!(response.headers.get("Content-Type") ?? "").includes("json")) return unnamed;
  try {
    return { ...unnamed, ...((await response.json()) as Partial<Problem>) };
  } catch (error) {
    if (error instanceof SyntaxError) return unnamed;
    throw error;
  }
}

/** What a failed command is said to be, for people. */
export function reason(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
