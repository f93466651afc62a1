"""The life of one order as stretches without gap: waiting, at a step, idle, made.

A step that was finished without its timer leaves no start. Once a drink is begun, the time since its last
sign of life then counts as that step's; before that, it counts as waiting.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from service.books.rung import RungLine, Work
from service.orders.events import (
    DrinkBumped,
    DrinkChanged,
    DrinkRecalled,
    DrinkRemade,
    DrinkVoided,
    HandedOff,
    HandOffTakenBack,
    OrderEvent,
    RungIn,
)
from service.times.record import DrinkRecord, OrderRecord, Run

SpanKind = Literal["waiting", "step", "idle", "made"]
_NEVER = 1 << 62


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of a drink's life from ``start`` to ``end`` (ms; None: it lasts)."""

    kind: SpanKind
    station: str | None
    label: str
    start: int
    end: int | None


@dataclass(frozen=True, slots=True)
class Mark:
    """Something that happened to an order at a moment."""

    at: int
    what: str


def spans(order: OrderRecord, drink: DrinkRecord) -> tuple[Span, ...]:
    """A drink's stretches from ring-in to hand-off or void (or open-ended), in order and without gap.

    A cup thrown away is told as it was; with the next one the drink waits for hands again.
    """
    end = drink.voided_at if drink.voided_at is not None else order.handed_off_at
    found: list[Span] = []
    since = order.rung_at
    for gone in drink.wasted:
        found += _between(since, gone.at, _stretches(gone.work, gone.runs, gone.made))
        since = gone.at
    last = _NEVER if end is None else end
    found += _between(since, last, _stretches(drink.rung.work, drink.runs, drink.made))
    return tuple(found)


_What = tuple[SpanKind, str | None, str]


def _between(since: int, last: int, stretches: list[tuple[int, int, _What]]) -> list[Span]:
    """The life of one cup from ``since`` to ``last``, without gap."""
    edges = {at for start, stop, _ in stretches for at in (start, stop) if since < at < last}
    cuts = [since, *sorted(edges), last]
    begun = min((start for start, _, _ in stretches), default=_NEVER)
    found: list[Span] = []
    for start, stop in pairwise(cuts):
        if start == stop:
            continue
        kind, station, label = _at(stretches, start, begun)
        before = found[-1] if found else None
        if before and (before.kind, before.station, before.label) == (kind, station, label):
            start = found.pop().start
        found.append(Span(kind, station, label, start, None if stop == _NEVER else stop))
    return found


def _stretches(
    works: Sequence[Work], runs: Sequence[Run], made: Sequence[tuple[int, int | None]]
) -> list[tuple[int, int, _What]]:
    """(start, end, what) of every go at a step and of every time the drink stood made."""
    found: list[tuple[int, int, _What]] = []
    for bumped, recalled in made:
        found.append((bumped, _NEVER if recalled is None else recalled, ("made", None, "")))
    signs = [at for run in runs for at in (run.start, run.end) if at is not None]
    signs += [recalled for _, recalled in made if recalled is not None]
    for run in runs:
        end = _NEVER if run.end is None else run.end
        start = run.start if run.start is not None else max((at for at in signs if at < end), default=end)
        work = works[run.step - 1]
        found.append((start, end, ("step", work.station, work.label)))
    return found


def _at(stretches: Iterable[tuple[int, int, _What]], moment: int, begun: int) -> _What:
    """What the drink was at from ``moment`` on. Of steps that ran together, the one begun first."""
    there = [(start, what) for start, end, what in stretches if start <= moment < end]
    made = [what for _, what in there if what[0] == "made"]
    if made:
        return made[0]
    if there:
        return min(there, key=lambda each: each[0])[1]
    return ("waiting", None, "") if moment < begun else ("idle", None, "")


def marks(story: Iterable[OrderEvent]) -> tuple[Mark, ...]:
    """What happened to an order, moment by moment; work at steps is told by the spans."""
    told = tuple(story)
    cups = [
        line.title
        for event in told
        if isinstance(event, RungIn)
        for line in event.lines
        for _ in range(line.quantity)
    ]
    return tuple(Mark(event.at, words) for event in told if (words := _words(event, cups)) is not None)


def _words(event: OrderEvent, cups: list[str]) -> str | None:
    """``cups`` are the titles of the order's drinks, by their ids, and are kept up to date."""
    match event:
        case RungIn():
            return "rung in"
        case DrinkBumped():
            return f"{_named(event.drink, cups)} made"
        case DrinkRecalled():
            return f"{_named(event.drink, cups)} recalled"
        case DrinkVoided():
            how = "voided half-made" if event.begun else "voided"
            return f"{_named(event.drink, cups)} {how}: {event.reason}"
        case DrinkChanged():
            was = _named(event.drink, cups)
            return f"{was} changed to {_renamed(event.drink, event.line, cups)}"
        case DrinkRemade():
            was = _named(event.drink, cups)
            other = "" if event.line is None else f" as {_renamed(event.drink, event.line, cups)}"
            return f"{was} to make again{other}: {event.reason}"
        case HandedOff():
            return "handed off"
        case HandOffTakenBack():
            return "hand-off taken back"
        case _:
            return None


def _renamed(drink: str, line: RungLine, cups: list[str]) -> str:
    """What a cup is from now on, with what bends it: a change is as often of the sugar as of the drink."""
    cups[int(drink.rpartition(".")[2]) - 1] = line.title
    return ", ".join((line.title, *line.words))


def _named(drink: str, cups: list[str]) -> str:
    """A drink by its title, with its place where the order has more than one of it."""
    place = int(drink.rpartition(".")[2])
    title = cups[place - 1]
    return title if cups.count(title) == 1 else f"{title} ({place} of {len(cups)})"
