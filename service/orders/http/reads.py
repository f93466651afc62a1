"""What the floor can ask: menu, queue, the book, and whether all is well."""

from __future__ import annotations

import json

from flask import Response

from service.books import wire as books_wire
from service.books.menu import book_faults, menu
from service.host.clock import doubt
from service.journal.refusals import Code, Refused
from service.orders import telling, wire
from service.orders.desk import Desk
from service.orders.http.orders import open_book
from service.web.problems import ProblemFound
from service.web.routes import Operation, Routes, answer, answer_message


def add_reads(routes: Routes, desk: Desk) -> None:
    """The GET routes of the floor."""
    _add_state(routes, desk)

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
        Operation(
            "GET", "/api/menu", "menu", "All that can be rung in", books_wire.Menu, problems=("no-book",)
        )
    )
    def show_menu() -> Response:
        # Read before the book: should another open between, the menu is old by its name and asked for again.
        version = desk.fold.state.book or ""
        return answer_message(menu(version, open_book(desk), desk.shelf.faults, desk.builds))

    @routes.add(Operation("GET", "/api/queue", "queue", "The whole queue", wire.Snapshot))
    def queue() -> Response:
        return answer_message(telling.snapshot(desk.fold.store, desk.fold.state, desk.builds, desk.now()))

    @routes.add(
        Operation(
            "GET",
            "/api/book",
            "book",
            "The version of the book in force, and the faults of a newer",
            books_wire.BookState,
        )
    )
    def book() -> Response:
        version = desk.fold.state.book or ""
        return answer_message(books_wire.BookState(version=version, faults=book_faults(desk.shelf.faults)))
