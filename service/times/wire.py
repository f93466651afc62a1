"""Orders of a day, how long they took, and one ticket's life."""

from __future__ import annotations

from typing import Literal

from service.wire import Millis, Minor, Wire


class OrderedDrink(Wire):
    """Cups of an order alike in all that they are by now.

    Of these, ``void`` were struck off, ``changed`` were rung in as something else, ``remade`` made again.
    """

    title: str
    words: list[str]
    note: str
    quantity: int
    void: int
    changed: int
    remade: int


class OrderRow(Wire):
    """One order of a business day, for the register's list and the times page.

    ``gross`` is what was paid at ring-in, ``due`` what its drinks come to by now, void ones left out.
    """

    id: str
    number: int
    name: str
    rung_at: Millis
    ready_at: Millis | None
    handed_off_at: Millis | None
    state: Literal["waiting", "making", "ready", "handed off", "void"]
    void_reason: str | None
    drinks: int
    lines: list[OrderedDrink]
    gross: Minor
    due: Minor


class Orders(Wire):
    """GET /api/orders?day=YYYY-MM-DD."""

    day: str
    orders: list[OrderRow]


class Spread(Wire):
    """How a set of times is spread, in seconds. All None when there are none."""

    count: int
    p50: float | None
    p90: float | None
    p95: float | None
    longest: float | None


class HourTimes(Wire):
    """Times of the tickets rung in within one hour of the shop's day (local hour, 0 to 23)."""

    hour: int
    to_ready: Spread


class DrinkTimes(Wire):
    """Times from ring-in to made, of one drink on the menu."""

    drink: str
    name: str
    to_made: Spread


class StationTimes(Wire):
    """Hands-on times (start to finish of steps) at one station."""

    station: str
    name: str
    at_work: Spread


class Times(Wire):
    """GET /api/times?day=YYYY-MM-DD: a business day in review. ``days`` are those with orders.

    ``void`` are orders, ``remade`` cups thrown away and made again.
    """

    day: str
    days: list[str]
    open: int
    void: int
    remade: int
    to_ready: Spread
    to_hand_off: Spread
    by_hour: list[HourTimes]
    by_drink: list[DrinkTimes]
    by_station: list[StationTimes]
    orders: list[OrderRow]


class Span(Wire):
    """A stretch of a drink's life. ``kind``: waiting for hands, at a step, made and waiting."""

    kind: Literal["waiting", "step", "idle", "made"]
    station: str | None
    label: str
    start: Millis
    end: Millis | None


class DrinkLife(Wire):
    """One drink's stretches, in order, without gap."""

    id: str
    title: str
    words: list[str]
    spans: list[Span]


class Mark(Wire):
    """Something that happened to a ticket at a moment."""

    at: Millis
    what: str


class Life(Wire):
    """GET /api/tickets/{id}/life: one ticket from ring-in to hand-off, as a strip."""

    ticket: OrderRow
    now: Millis
    drinks: list[DrinkLife]
    marks: list[Mark]
