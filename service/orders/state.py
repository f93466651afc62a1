"""Where the bar stands: the fold of all its events. Values only; nothing here changes in place."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from service.books.rung import RungLine
from service.calendar.days import Calendar
from service.money.totals import Totals

StepWord = Literal["todo", "running", "done"]
DrinkWord = Literal["waiting", "making", "made", "void"]
Ending = Literal["handed off", "void"]


@dataclass(frozen=True, slots=True)
class Step:
    """Where one step stands; times in ms since 1970 UTC, None where it was not timed."""

    state: StepWord = "todo"
    started_at: int | None = None
    finished_at: int | None = None


@dataclass(frozen=True, slots=True)
class Drink:
    """One cup: ``rung`` is the line that it is made by, ``steps[i]`` the state of step i + 1.

    ``unbumped`` are the steps as they stood when it was bumped, for a recall to bring back. ``place`` tells
    with which line of its order it was rung in (from 0), whatever it is by now. ``changed_at`` and
    ``remade_at`` tell when it last became another and was last to be made again, if it ever was.
    """

    id: str
    rung: RungLine
    state: DrinkWord
    steps: tuple[Step, ...]
    bumped_at: int | None = None
    unbumped: tuple[Step, ...] = ()
    place: int = 0
    changed_at: int | None = None
    remade_at: int | None = None
    remade_why: str = ""


@dataclass(frozen=True, slots=True)
class Ticket:
    """An order that is still on the bar or waits at the hand-off; ``position`` is where it was rung in.

    ``totals`` are those it was rung in with, whatever was voided or changed since.
    """

    id: str
    number: int
    name: str
    day: str
    rung_at: int
    totals: Totals
    position: int
    drinks: tuple[Drink, ...]


@dataclass(frozen=True, slots=True)
class Handed:
    """A ticket as it stood when it was handed off, at ``at``."""

    ticket: Ticket
    at: int


@dataclass(frozen=True, slots=True)
class DaySpan:
    """Where a business day lies in the journal.

    ``first`` is the position of its first order, ``last`` that of the latest event that closed one of its
    tickets: once none of them is open, nothing about the day lies past it.
    """

    first: int
    last: int
    orders: int


@dataclass(frozen=True, slots=True)
class State:
    """The bar after the event at ``position`` (0: before any).

    ``anyway`` tells that ``book`` came into force by the owner's word, though its proof did not hold, and
    ``last_touch`` that by it a drink is bumped by what does its last step.
    ``tickets`` are the open ones in the order rung in; ``closed`` tells how the tickets of the latest
    business day and the one before ended; ``handed`` are those of the latest business day that were handed
    off, the latest last, for a hand-off by mistake to be taken back; ``number`` is the last number called on
    ``day``.
    """

    position: int = 0
    last_at: int = 0
    book: str | None = None
    anyway: bool = False
    last_touch: bool = False
    calendar: Calendar | None = None
    sold_out: frozenset[str] = frozenset()
    tickets: Mapping[str, Ticket] = field(default_factory=dict)
    closed: Mapping[str, tuple[str, Ending]] = field(default_factory=dict)
    handed: Mapping[str, Handed] = field(default_factory=dict)
    orders: int = 0
    day: str | None = None
    number: int = 0
    days: Mapping[str, DaySpan] = field(default_factory=dict)


EMPTY = State()
