"""A start on a long journal: what it takes and holds with a snapshot, against reading what came since."""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from time import perf_counter
from typing import Any

from redis import Redis

from service.books.rung import RungLine, Work
from service.journal.codec import Codec
from service.journal.journal import Envelope, Record
from service.journal.redis import RedisJournal, client
from service.journal.snapshot import SPACING, Snapshots
from service.money.totals import Totals
from service.orders.events import (
    BookOpened,
    DrinkBumped,
    Event,
    HandedOff,
    RungIn,
    StepsFinished,
    StepStarted,
)
from service.orders.evolve import evolve
from service.orders.state import EMPTY, State
from service.orders.subject import KINDS
from tests.bench.figures import Figure, figure
from tests.bench.redis_alone import redis_alone

LENGTHS = (10_000, 100_000, 1_000_000)
"""How many records the journals have; a small bar writes a million in a year or so."""

ORDERS_A_DAY = 600
CODE = "bench"
STARTS = 5
BATCH = 2_000


def figures() -> list[Figure]:
    """Seconds until orders can be taken and until the latest days are at hand, and megabytes, at each length;
    the latest snapshot is a spacing back."""
    found = []
    with tempfile.TemporaryDirectory() as folder, redis_alone(Path(folder)) as url:
        for length in LENGTHS:
            place = Path(folder) / f"{length}.json"
            _write(client(url=url), f"bench-{length}", length, place)
            told = [_started(url, f"bench-{length}", place) for _ in range(STARTS)]
            floor = [_bare(client(url=url), f"bench-{length}", length) for _ in range(STARTS)]
            since = f"reading bare the {SPACING:,} records since the snapshot"
            name = f"start, {length:,} records"
            found.append(figure(name, "s", since, [each["opened"] for each in told], floor))
            name = f"{name}, days at hand"
            found.append(figure(name, "s", since, [each["loaded"] for each in told], floor))
            held = [each["megabytes"] for each in told]
            bare = [each["before"] for each in told]
            found.append(figure(f"memory, {length:,} records", "MB", "before anything is read", held, bare))
    return found


def life(length: int) -> Iterator[Event]:
    """The first ``length`` events of a bar: orders rung in, made and handed off, day after day."""
    at = 1_700_000_000_000
    work = tuple(Work(station, station, 0.0, 5.0) for station in ("scoop", "shake", "seal"))
    totals = Totals("EUR", 436, 44, 480, "VAT", "10", True, "order")
    line = RungLine(
        "taro", "Taro", {"drink": "taro"}, "b", "x", "Large Taro", ("less ice",), 1, 480, "", ("milk",), work
    )
    yield BookOpened(at, "b", "UTC", 240)
    for n in range(1, length):
        order, step = divmod(n - 1, 5)
        day, number = divmod(order, ORDERS_A_DAY)
        at += 10_000
        id, drink = str(order + 1), f"{order + 1}.1"
        match step:
            case 0:
                when = f"{2024 + day // 365}-{day % 365:03}"
                yield RungIn(at, id, number + 1, when, "Ana", (line,), totals)
            case 1:
                yield StepStarted(at, drink, 2)
            case 2:
                yield StepsFinished(at, drink, (1, 2))
            case 3:
                yield DrinkBumped(at, drink)
            case _:
                yield HandedOff(at, id)


def _write(redis: Redis, store: str, length: int, place: Path) -> None:
    codec: Codec[Event] = Codec(KINDS)
    state, pipe = EMPTY, redis.pipeline(transaction=False)
    journal = RedisJournal(redis, redis, store)
    kept: Snapshots[State] = Snapshots(place, State, CODE)
    until = length - SPACING
    for n, event in enumerate(life(length), start=1):
        record = codec.encode(event)
        pipe.xadd(f"ls:{{{store}}}:journal", _fields(record), id=f"{n}-0")
        if n <= until:
            state = evolve(state, event)
        if n == until:
            kept.keep(state, journal.store(), Envelope(n, record))
        if n % BATCH == 0:
            pipe.execute()
            print(f"\r  {store}: {n:,} written", end="", file=sys.stderr, flush=True)
    pipe.execute()
    print(file=sys.stderr)


def _fields(record: Record) -> dict[Any, Any]:
    by = record.origin
    return {
        "kind": record.kind,
        "version": record.version,
        "at": record.at,
        "who": by.who,
        "device": by.device,
        "request": by.request,
        "body": record.body,
    }


def _started(url: str, store: str, place: Path) -> dict[str, float]:
    asked = [sys.executable, "-m", "tests.bench.started", url, store, str(place), CODE]
    told = subprocess.run(asked, capture_output=True, text=True, check=True).stdout
    found: dict[str, float] = json.loads(told)
    return found


def _bare(redis: Redis, store: str, length: int) -> float:
    journal = RedisJournal(redis, redis, store)
    begun = perf_counter()
    position = length - SPACING
    while position < length:
        position = journal.read(position, 500)[-1].position
    return perf_counter() - begun
