"""One cup of an order that is rung in, over HTTP: another line, made again, and what that comes to."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from flask import Response

from recipes.asking.price import price as price_of
from service.books import wire as books_wire
from service.books.telling import build as told_build
from service.journal.refusals import Refused
from service.money.due import due
from service.orders import commands as ask
from service.orders import telling, wire
from service.orders.commands import Command, OrderLine
from service.orders.desk import Desk
from service.orders.find import find_drink, find_ticket, not_void
from service.orders.http.commands import AT_A_DRINK, done
from service.orders.http.orders import build_of, needs, open_book, order_line, whole_line
from service.orders.state import Drink
from service.web.body import request_message
from service.web.key import request_key, request_origin
from service.web.problems import ProblemFound
from service.web.routes import Operation, Routes, answer, answer_message
from service.web.text import NOTE_LENGTH, clean


def add_cups(routes: Routes, desk: Desk) -> None:
    """Change and remake a cup, and tell beforehand what its order then comes to."""
    _add_changes(routes, desk)
    _add_difference(routes, desk)


def _add_changes(routes: Routes, desk: Desk) -> None:
    @routes.add(
        Operation(
            "POST",
            "/api/drinks/<drink>/change",
            "changeDrink",
            "Let a cup that nobody has begun be another",
            wire.Done,
            wire.ChangeIn,
            key="required",
            problems=(*_AT_A_CUP, "drink-begun", "line-refused"),
        )
    )
    def change(drink: str) -> Response:
        asked = request_message(wire.ChangeIn)

        def command() -> Command:
            return ask.ChangeDrink(drink, _line(desk, _cup(desk, drink), asked.line, asked.note))

        return _carry_out(desk, command)

    @routes.add(
        Operation(
            "POST",
            "/api/drinks/<drink>/remake",
            "remakeDrink",
            "Throw a cup away and make it again, as it was or as another",
            wire.Done,
            wire.RemakeIn,
            key="required",
            problems=(*_AT_A_CUP, "line-refused", "reason-missing"),
        )
    )
    def remake(drink: str) -> Response:
        asked = request_message(wire.RemakeIn)
        reason = clean(asked.reason, NOTE_LENGTH)

        def command() -> Command:
            cup = _cup(desk, drink)
            line = None if asked.line is None else _line(desk, cup, asked.line, asked.note)
            return ask.RemakeDrink(drink, reason, line, _needs(desk, cup))

        return _carry_out(desk, command)


_AT_A_CUP = (*AT_A_DRINK, "drink-void", "handed-off", "sold-out", "key-missing", "key-reused")


def _carry_out(desk: Desk, command: Callable[[], Command]) -> Response:
    """Carry out what is asked, or give the answer that the same request had before.

    What was asked then may be off the menu by the time of the retry, or the cup handed off.
    """
    key = request_key(required=True)
    try:
        wanted = command()
    except (ProblemFound, Refused):
        earlier = desk.handler.earlier(key)
        if earlier is None:
            raise
        return answer(earlier)
    return answer(desk.handler.handle(wanted, done, key, request_origin(key)).answer)


def _cup(desk: Desk, drink: str) -> Drink:
    """The cup as it stands; another process may have rung it in a moment ago. Raises Refused."""
    try:
        return find_drink(desk.fold.state, drink)
    except Refused:
        desk.fold.catch_up(desk.journal)
        return find_drink(desk.fold.state, drink)


def _line(desk: Desk, cup: Drink, asked: books_wire.LineIn, note: str | None) -> OrderLine:
    told = wire.DrinkIn(line=asked, note=cup.rung.note if note is None else note)
    return order_line(open_book(desk), told, "line", desk.builds)


def _needs(desk: Desk, cup: Drink) -> dict[str, str]:
    """What must not have run out to make a cup as it is; nothing is known of it once its book is gone."""
    book = desk.shelf.book(cup.rung.book)
    if book is None or cup.rung.item not in book.drinks:
        return {}
    return needs(book, desk.builds.of(cup.rung).line, cup.rung.uses)


def _add_difference(routes: Routes, desk: Desk) -> None:
    @routes.add(
        Operation(
            "POST",
            "/api/drinks/<drink>/difference",
            "difference",
            "What an order comes to with one of its cups another, or struck off",
            wire.Difference,
            wire.DifferenceIn,
            problems=(*AT_A_DRINK, "drink-void", "handed-off", "line-refused", "no-book"),
        )
    )
    def difference(drink: str) -> Response:
        asked = request_message(wire.DifferenceIn).line
        cup = not_void(_cup(desk, drink))
        ticket = find_ticket(desk.fold.state, drink.rpartition(".")[0])
        build, price = None, 0
        if asked is not None:
            book = open_book(desk)
            line = whole_line(book, asked, "line")
            build, price = build_of(desk.builds, book, line, "line"), price_of(book, line)
        cups = telling.cups(ticket)
        n = next(n for n, each in enumerate(ticket.drinks) if each.id == cup.id)
        after = [*cups]
        after[n] = replace(cups[n], stands=False) if build is None else replace(cups[n], unit=price)
        return answer_message(
            wire.Difference(
                build=None if build is None else told_build(build),
                price=price,
                gross=ticket.totals.gross,
                due=due(cups, ticket.totals),
                after=due(after, ticket.totals),
            )
        )
