"""What can be asked: menu, queue, orders, times, a ticket's life, the book, and whether all is well."""

from __future__ import annotations

import json
from collections.abc import Callable

from flask import Response, request

from service import wire
from service.books.menu import book_faults, menu
from service.calendar.days import Calendar, business_day, read_day
from service.host.clock import doubt
from service.journal.refusals import Code, Refused
from service.orders import telling as render
from service.orders.desk import Desk
from service.orders.http.orders import open_book
from service.orders.state import State
from service.times.life import marks, spans
from service.times.record import record
from service.times.review import review
from service.web.problems import ProblemFound, field_fault
from service.web.routes import Operation, Routes, answer, answer_message

_DAY = {"day": "a business day as YYYY-MM-DD; left out: today"}


def add_reads(routes: Routes, desk: Desk) -> None:
    """All GET routes of the API."""
    _add_state(routes, desk)
    _add_past(routes, desk)

    @routes.add(
        Operation(
            "GET",
            "/healthz",
            "health",
            "200 once orders can be rung in; clock tells what is wrong with it, if anything is",
            problems=("no-book",),
        )
    )
    def health() -> Response:
        if desk.fold.state.book is None:
            raise Refused(Code.NO_BOOK, "No book is open yet.", "", "")
        if not desk.follower.reachable.is_set():
            raise ProblemFound("journal-away", "The journal does not answer at the moment.")
        wrong = doubt(desk.fold.state.last_at, desk.now())
        return answer(json.dumps({"status": "ok", **({"clock": wrong} if wrong else {})}))


def _add_state(routes: Routes, desk: Desk) -> None:
    @routes.add(
        Operation("GET", "/api/menu", "menu", "All that can be rung in", wire.Menu, problems=("no-book",))
    )
    def show_menu() -> Response:
        # Read before the book: should another open between, the menu is old by its name and asked for again.
        version = desk.fold.state.book or ""
        return answer_message(menu(version, open_book(desk), desk.shelf.faults, desk.builds))

    @routes.add(Operation("GET", "/api/queue", "queue", "The whole queue", wire.Snapshot))
    def queue() -> Response:
        return answer_message(render.snapshot(desk.fold.store, desk.fold.state, desk.builds, desk.now()))

    @routes.add(
        Operation(
            "GET",
            "/api/book",
            "book",
            "The version of the book in force, and the faults of a newer",
            wire.BookState,
        )
    )
    def book() -> Response:
        version = desk.fold.state.book or ""
        return answer_message(wire.BookState(version=version, faults=book_faults(desk.shelf.faults)))


def _add_past(routes: Routes, desk: Desk) -> None:
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
        rows = [render.order_row(each) for each in desk.history.day(day)]
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
        return answer_message(_times(desk, _asked_day(desk)))

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
        return answer_message(_life(desk, ticket))


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


def _times(desk: Desk, day: str) -> wire.Times:
    state = desk.fold.state
    records = desk.history.day(day)
    book = desk.book()
    stations = {each.id: each.name for each in book.stations.values()} if book else {}
    found = review(records, state.calendar or _NO_CALENDAR, stations)
    return wire.Times(
        day=day,
        days=sorted(state.days),
        open=found.open,
        void=found.void,
        remade=found.remade,
        to_ready=render.spread(found.to_ready),
        to_hand_off=render.spread(found.to_hand_off),
        by_hour=[
            wire.HourTimes(hour=int(each.id), to_ready=render.spread(each.spread)) for each in found.by_hour
        ],
        by_drink=[
            wire.DrinkTimes(drink=each.id, name=each.name, to_made=render.spread(each.spread))
            for each in found.by_drink
        ],
        by_station=[
            wire.StationTimes(station=each.id, name=each.name, at_work=render.spread(each.spread))
            for each in found.by_station
        ],
        orders=[render.order_row(each) for each in records],
    )


def _life(desk: Desk, ticket: str) -> wire.Life:
    story = desk.history.story(ticket)
    if story is None:
        orders = desk.fold.state.orders
        accepted = f"the id of an order, 1 to {orders}" if orders else "the id of an order; there is none yet"
        message = f"There is no ticket {ticket!r}."
        raise Refused(Code.UNKNOWN_TICKET, message, "ticket", ticket, (accepted,))
    told = record(story)
    return wire.Life(
        ticket=render.order_row(told),
        now=desk.now(),
        drinks=[
            wire.DrinkLife(
                id=drink.id,
                title=drink.rung.title,
                words=list(drink.rung.words),
                spans=render.spans(spans(told, drink)),
            )
            for drink in told.drinks
        ],
        marks=render.marks(marks(story)),
    )
