"""What became of one order, told from its own events: the stuff of the day's review and of its life.

The bar's state forgets a ticket once it has left the queue; a record does not.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Literal

from service.books.rung import RungLine, Work
from service.money.totals import Totals
from service.orders.events import (
    DrinkBumped,
    DrinkChanged,
    DrinkEvent,
    DrinkRecalled,
    DrinkRemade,
    DrinkVoided,
    HandedOff,
    HandOffTakenBack,
    OrderEvent,
    RungIn,
    StepsFinished,
    StepsReopened,
    StepStarted,
)
from service.orders.evolve import last_station

OrderWord = Literal["waiting", "making", "ready", "handed off", "void"]


@dataclass(slots=True)
class Run:
    """One go at one step. ``start`` is None where no timer was started, ``end`` while it runs.

    ``resumed``: it goes on with the one before it, which a bump had cut off.
    """

    step: int
    start: int | None
    end: int | None
    resumed: bool = False


@dataclass(slots=True)
class Wasted:
    """A cup that was thrown away for another at ``at``: its work, runs and times made, as of a drink."""

    work: tuple[Work, ...]
    runs: list[Run]
    made: Sequence[tuple[int, int | None]]
    at: int


@dataclass(slots=True)
class DrinkRecord:
    """One cup: its runs in the order they began, when it was made and recalled, when and why voided.

    ``made`` holds (bumped, recalled) pairs, the second None while the drink stays made. ``done`` are the
    steps that are done; ``before_bump`` those done before the last bump, ``cut_off`` those that it ended.
    ``place`` is the line of the order that it was rung in with (from 0), ``rung`` the line that it is by now.
    All of it is about the cup that goes out: those thrown away for it are ``wasted``, the latest last.
    """

    id: str
    rung: RungLine
    runs: list[Run] = field(default_factory=list)
    done: set[int] = field(default_factory=set)
    before_bump: frozenset[int] = frozenset()
    cut_off: tuple[int, ...] = ()
    made: list[tuple[int, int | None]] = field(default_factory=list)
    voided_at: int | None = None
    void_reason: str | None = None
    place: int = 0
    changed: bool = False
    wasted: list[Wasted] = field(default_factory=list)

    @property
    def made_at(self) -> int | None:
        """When it was made for good, so far; None while it is still to make, or void."""
        if self.voided_at is not None or not self.made or self.made[-1][1] is not None:
            return None
        return self.made[-1][0]

    @property
    def begun(self) -> bool:
        """Whether any hand has been at it, as far as that was not taken back."""
        return self.made_at is not None or bool(self.done or self.running)

    @property
    def running(self) -> tuple[int, ...]:
        """The steps whose timer runs."""
        return tuple(run.step for run in self.runs if run.end is None)

    @property
    def steps(self) -> range:
        """The numbers of its steps."""
        return range(1, len(self.rung.work) + 1)


@dataclass(slots=True)
class OrderRecord:
    """One order from ring-in on. Times in ms since 1970 UTC, ``totals`` as it was rung in."""

    order: str
    number: int
    name: str
    day: str
    rung_at: int
    totals: Totals
    drinks: list[DrinkRecord]
    handed_off_at: int | None = None

    @property
    def standing(self) -> list[DrinkRecord]:
        """Its drinks that are not void."""
        return [drink for drink in self.drinks if drink.voided_at is None]

    @property
    def ready_at(self) -> int | None:
        """When the last of its drinks was bumped, once they all are."""
        made = [drink.made_at for drink in self.standing]
        times = [at for at in made if at is not None]
        return max(times) if times and len(times) == len(made) else None

    @property
    def state(self) -> OrderWord:
        """Where the order stands."""
        if not self.standing:
            return "void"
        if self.handed_off_at is not None:
            return "handed off"
        if self.ready_at is not None:
            return "ready"
        return "making" if any(drink.begun for drink in self.standing) else "waiting"

    @property
    def void_reason(self) -> str | None:
        """Why the order was voided, if all of it was: the last reason given."""
        if self.standing:
            return None
        return max(self.drinks, key=lambda drink: drink.voided_at or 0).void_reason


def record(story: Iterable[OrderEvent]) -> OrderRecord:
    """The record of one order from its events, of which the first is its ring-in."""
    events = iter(story)
    rung = next(events)
    if not isinstance(rung, RungIn):
        raise ValueError(f"the story of an order begins with its ring-in, not with {rung!r}")
    cups = [(place, line) for place, line in enumerate(rung.lines) for _ in range(line.quantity)]
    drinks = {
        f"{rung.order}.{n}": DrinkRecord(f"{rung.order}.{n}", line, place=place)
        for n, (place, line) in enumerate(cups, 1)
    }
    told = OrderRecord(
        rung.order, rung.number, rung.name, rung.day, rung.at, rung.totals, list(drinks.values())
    )
    for event in events:
        match event:
            case HandedOff():
                told.handed_off_at = event.at
            case HandOffTakenBack():
                told.handed_off_at = None
            case RungIn():
                raise ValueError(f"order {event.order} was rung in twice")
            case _:
                _tell(drinks[event.drink], event)
    return told


def _tell(drink: DrinkRecord, event: DrinkEvent) -> None:
    match event:
        case StepStarted():
            drink.runs.append(Run(event.step, event.at, None))
        case StepsFinished():
            _finish(drink, event.steps, event.at)
        case StepsReopened():
            _reopen(drink, event.steps)
        case DrinkBumped():
            drink.before_bump, drink.cut_off = frozenset(drink.done), drink.running
            _finish(drink, [step for step in drink.steps if step not in drink.done], event.at)
            drink.made.append((event.at, None))
        case DrinkRecalled():
            drink.made[-1] = (drink.made[-1][0], event.at)
            _recall(drink, event.at)
        case DrinkVoided():
            drink.voided_at, drink.void_reason = event.at, event.reason
            _stop(drink, event.at)
        case DrinkChanged():
            _begin_anew(drink, event.line)
        case DrinkRemade():
            _stop(drink, event.at)
            made = [(bumped, event.at if back is None else back) for bumped, back in drink.made]
            drink.wasted.append(Wasted(drink.rung.work, drink.runs, made, event.at))
            _begin_anew(drink, event.line)
            drink.made = []


def _begin_anew(drink: DrinkRecord, line: RungLine | None) -> None:
    """Nothing is done; what a bump by mistake had left of runs was of steps that may not be any more."""
    drink.runs, drink.done = [], set()
    drink.before_bump, drink.cut_off = frozenset(), ()
    if line is not None:
        drink.rung, drink.changed = line, True


def _finish(drink: DrinkRecord, steps: Iterable[int], at: int) -> None:
    running = {run.step: run for run in drink.runs if run.end is None}
    for step in steps:
        if step in running:
            running[step].end = at
        else:
            drink.runs.append(Run(step, None, at))
        drink.done.add(step)


def _recall(drink: DrinkRecord, at: int) -> None:
    """What was open before the bump is open again, as in the bar's state; timers that ran go on from now.

    The time it stood made is nobody's work, so such a step has two runs, one either side of it.
    """
    drink.done &= drink.before_bump
    if len(drink.done) == len(drink.steps):
        drink.done -= set(last_station(drink.rung.work))
    drink.runs += [Run(step, at, None, resumed=True) for step in drink.cut_off]


def _reopen(drink: DrinkRecord, steps: Iterable[int]) -> None:
    """A go at a step that was taken back was none, in however many pieces."""
    for step in steps:
        resumed = True
        while resumed:
            last = max(n for n, run in enumerate(drink.runs) if run.step == step)
            resumed = drink.runs[last].resumed
            del drink.runs[last]
        drink.done.discard(step)


def _stop(drink: DrinkRecord, at: int) -> None:
    for run in drink.runs:
        if run.end is None:
            run.end = at
