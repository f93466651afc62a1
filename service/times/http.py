"""What can be asked of the past: the orders of a day, its review, one ticket's life."""

from __future__ import annotations

from collections.abc import Callable

from flask import Response, request

from service.calendar.days import Calendar, business_day, read_day
from service.journal.refusals import Code, Refused
from service.orders.desk import Desk
from service.orders.state import State
from service.times import telling, wire
from service.times.history import History
from service.times.life import marks, spans
from service.times.record import record
from service.times.review import review
from service.web.problems import ProblemFound, field_fault
from service.web.routes import Operation, Routes, answer_message

_DAY = {"day": "a business day as YYYY-MM-DD; left out: today"}


def add_times(routes: Routes, desk: Desk, history: History) -> None:
    """The GET routes over what is past."""

    @routes.add(
        Operation(
            "GET",
            "/api/orders",
            "orders",
            "The orders of a business day",
            wire.Orders,
            query=_DAY,
            problems=("wrong-day",),
        )
    )
    def orders() -> Response:
        day = _asked_day(desk)
        rows = [telling.order_row(each) for each in history.day(day)]
        return answer_message(wire.Orders(day=day, orders=rows))

    @routes.add(
        Operation(
            "GET",
            "/api/times",
            "times",
            "A business day in review",
            wire.Times,
            query=_DAY,
            problems=("wrong-day",),
        )
    )
    def times() -> Response:
        return answer_message(_times(desk, history, _asked_day(desk)))

    @routes.add(
        Operation(
            "GET",
            "/api/tickets/<ticket>/life",
            "life",
            "One ticket from ring-in to hand-off",
            wire.Life,
            problems=("unknown-ticket",),
        )
    )
    def life(ticket: str) -> Response:
        return answer_message(_life(desk, history, ticket))


def _asked_day(desk: Desk) -> str:
    """The day asked for; today if none was. Raises ProblemFound."""
    text = request.args.get("day", "")
    if not text:
        return _today(desk.fold.state, desk.now)
    day = read_day(text)
    if day is None:
        fault = field_fault("day", text, "a day of the calendar as YYYY-MM-DD")
        raise ProblemFound("wrong-day", f"{fault.value!r} is not a day.", [fault])
    return day


def _today(state: State, now: Callable[[], int]) -> str:
    calendar = state.calendar or _NO_CALENDAR
    return max(business_day(now(), calendar), state.day or "")


_NO_CALENDAR = Calendar("UTC", 0)
"""Before a book is open there are no orders either, and any calendar will do."""


def _times(desk: Desk, history: History, day: str) -> wire.Times:
    state = desk.fold.state
    records = history.day(day)
    book = desk.book()
    stations = {each.id: each.name for each in book.stations.values()} if book else {}
    found = review(records, state.calendar or _NO_CALENDAR, stations)
    return wire.Times(
        day=day,
        days=sorted(state.days),
        open=found.open,
        void=found.void,
        remade=found.remade,
        to_ready=telling.spread(found.to_ready),
        to_hand_off=telling.spread(found.to_hand_off),
        by_hour=[
            wire.HourTimes(hour=int(each.id), to_ready=telling.spread(each.spread)) for each in found.by_hour
        ],
        by_drink=[
            wire.DrinkTimes(drink=each.id, name=each.name, to_made=telling.spread(each.spread))
            for each in found.by_drink
        ],
        by_station=[
            wire.StationTimes(station=each.id, name=each.name, at_work=telling.spread(each.spread))
            for each in found.by_station
        ],
        orders=[telling.order_row(each) for each in records],
    )


def _life(desk: Desk, history: History, ticket: str) -> wire.Life:
    story = history.story(ticket)
    if story is None:
        orders = desk.fold.state.orders
        accepted = f"the id of an order, 1 to {orders}" if orders else "the id of an order; there is none yet"
        message = f"There is no ticket {ticket!r}."
        raise Refused(Code.UNKNOWN_TICKET, message, "ticket", ticket, (accepted,))
    told = record(story)
    return wire.Life(
        ticket=telling.order_row(told),
        now=desk.now(),
        drinks=[
            wire.DrinkLife(
                id=drink.id,
                title=drink.rung.title,
                words=list(drink.rung.words),
                spans=telling.spans(spans(told, drink)),
            )
            for drink in told.drinks
        ],
        marks=telling.marks(marks(story)),
    )
