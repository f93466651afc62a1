"""The queue as the displays hold it, whole and in pieces."""

from __future__ import annotations

from typing import Literal

from service.books.wire import Build
from service.wire import Millis, Minor, Wire


class StepState(Wire):
    """Where one step of a drink stands. A timer is (started_at, the build's duration)."""

    state: Literal["todo", "running", "done"]
    started_at: Millis | None = None
    finished_at: Millis | None = None


class QueueDrink(Wire):
    """One drink (one cup) as the displays see it. ``build`` keys into ``builds``.

    ``id`` is ``<ticket id>.<n>`` with n from 1. ``steps[i]`` is the state of step i + 1. ``changed_at`` and
    ``remade_at`` tell when it last became another and was last to be made again after it was rung in.
    """

    id: str
    build: str
    note: str
    state: Literal["waiting", "making", "made", "void"]
    steps: list[StepState]
    bumped_at: Millis | None = None
    changed_at: Millis | None = None
    remade_at: Millis | None = None
    remade_why: str = ""


class Ticket(Wire):
    """An order as the bar sees it, until it is handed off or void.

    ``gross`` is what was paid at ring-in, ``due`` what its drinks come to by now, void ones left
    out: the difference is to be paid back, or still to be paid.
    """

    id: str
    number: int
    name: str
    day: str
    rung_at: Millis
    state: Literal["waiting", "making", "ready"]
    ready_at: Millis | None = None
    drinks: list[QueueDrink]
    gross: Minor
    due: Minor


class HandedOff(Wire):
    """A ticket handed off today, for a hand-off by mistake to be taken back."""

    id: str
    number: int
    name: str
    drinks: int
    handed_off_at: Millis


class Snapshot(Wire):
    """Socket event ``snapshot``, and GET /api/queue: the whole queue at one position.

    ``handed`` are the tickets handed off last today, newest first; older ones are in GET /api/orders.
    ``store`` names the journal that positions count in; a position means nothing in another.
    """

    store: str
    position: int
    now: Millis
    book: str
    tickets: list[Ticket]
    builds: dict[str, Build]
    handed: list[HandedOff]
    sold_out: list[str]


class Change(Wire):
    """Socket event ``change``: what became of the queue between two positions.

    Tickets named here replace those held; ``gone`` have left the queue (handed off or void), of which
    ``struck`` are void, so that hands that are at them can be told to stop.
    ``builds`` are those a display may not have yet. ``handed``, ``sold_out`` and ``book`` are None when
    they did not change. A display whose position is not ``after``, or that knows another ``store``, asks
    for the rest with ``follow``.
    """

    store: str
    after: int
    position: int
    now: Millis
    tickets: list[Ticket]
    gone: list[str]
    struck: list[str]
    builds: dict[str, Build]
    handed: list[HandedOff] | None = None
    sold_out: list[str] | None = None
    book: str | None = None
