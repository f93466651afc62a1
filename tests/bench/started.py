"""One start in a process of its own, as JSON: ``python -m tests.bench.started URL STORE SNAPSHOT CODE``."""

from __future__ import annotations

import json
import resource
import sys
from pathlib import Path
from time import perf_counter

from service.journal.redis import RedisJournal, client
from service.journal.snapshot import Snapshots
from service.orders.state import State
from service.orders.subject import ORDERS, OrdersFold
from service.times.history import History


def main(url: str, store: str, place: str, code: str) -> None:
    """Bring a fold and the history to the journal's end as a service does."""
    redis = client(url=url)
    journal = RedisJournal(redis, redis, store)
    before = _megabytes()
    begun = perf_counter()
    fold = OrdersFold(ORDERS)
    history = History(fold, journal)
    kept = Snapshots[State](Path(place), State, code).load(journal)
    if kept is None:
        raise SystemExit("the snapshot was not used")
    fold.resume(kept)
    fold.replay(journal)
    opened = perf_counter() - begun
    if not history.day(fold.state.day or ""):
        raise SystemExit("the latest day is not there")
    loaded = perf_counter() - begun
    print(json.dumps({"opened": opened, "loaded": loaded, "megabytes": _megabytes(), "before": before}))


def _megabytes() -> float:
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return peak / (1 << 20) if sys.platform == "darwin" else peak / 1024


if __name__ == "__main__":
    main(*sys.argv[1:5])
