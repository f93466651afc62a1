/**
 * The service's clock, seen from here. All times on the wire are the service's; a display keeps only an
 * offset from its own steady clock (which a change of the computer's time does not move), taken from the
 * round trip that was shortest, because that one left the least room for error.
 */
import { type ReadonlySignal, signal } from "@preact/signals";

/** One `clock` round trip: sent and received on our steady clock, `service` on the service's, in ms. */
export interface RoundTrip {
  readonly sent: number;
  readonly received: number;
  readonly service: number;
}

/** How many round trips are remembered: old ones must go, since two clocks drift apart. */
const KEPT = 12;

/** How far two clocks may drift apart, in ms, while the trips that are kept were made. */
const DRIFT_MS = 50;

/** Service time minus our steady time, by one round trip, half of which is taken as the way back. */
export function offsetOf(trip: RoundTrip): number {
  return trip.service - (trip.sent + trip.received) / 2;
}

/**
 * Whether two trips can be of the same two clocks. Each knows the offset to within half its length; where
 * those bounds are apart by more than drift explains, a clock was set or stood still in between (a tablet slept).
 */
export function agree(one: RoundTrip, other: RoundTrip): boolean {
  const bounds = (one.received - one.sent + other.received - other.sent) / 2;
  return Math.abs(offsetOf(one) - offsetOf(other)) <= bounds + DRIFT_MS;
}

/** The trip that took least; of equals the newest. Undefined when there is none. */
export function shortest(trips: readonly RoundTrip[]): RoundTrip | undefined {
  return trips.reduce<RoundTrip | undefined>(
    (best, trip) =>
      best === undefined || trip.received - trip.sent <= best.received - best.sent ? trip : best,
    undefined,
  );
}

/** A clock that follows the service's by the round trips it is told of. */
export class ServiceClock {
  private trips: RoundTrip[] = [];
  private offset: number;

  constructor(private readonly steady: () => number = () => performance.now()) {
    this.offset = Date.now() - steady();
  }

  /** Our own steady clock, in ms, for measuring a round trip. */
  local(): number {
    return this.steady();
  }

  /** Takes a round trip into account; older ones that it contradicts are forgotten. */
  learn(trip: RoundTrip): void {
    this.trips = [...this.trips.filter((old) => agree(old, trip)), trip].slice(-KEPT);
    const best = shortest(this.trips);
    if (best) this.offset = offsetOf(best);
  }

  /** Forgets the round trips of a connection that ended; the offset holds until there are new ones. */
  forget(): void {
    this.trips = [];
  }

  /** A first idea from a message that only went one way; ignored once a round trip is known. */
  hint(service: number): void {
    if (this.trips.length === 0) this.offset = service - this.steady();
  }

  /** The service's time now, in ms since 1970. */
  now(): number {
    return this.steady() + this.offset;
  }
}

/** The one clock of this page. */
export const clock = new ServiceClock();

const ticking = signal(clock.now());

/** The service's time, renewed every second: what waits and timers are drawn from. */
export const now: ReadonlySignal<number> = ticking;

/** Renews `now` at once, and then each second until the returned function is called. */
export function startTicking(): () => void {
  const renew = () => {
    ticking.value = clock.now();
  };
  renew();
  const timer = setInterval(renew, 1000);
  document.addEventListener("visibilitychange", renew);
  return () => {
    clearInterval(timer);
    document.removeEventListener("visibilitychange", renew);
  };
}
