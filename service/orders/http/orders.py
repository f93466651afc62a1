"""Quotes and ring-ins over HTTP: lines as asked for become lines resolved and priced."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from flask import Response

from recipes.asking.lines import complete
from recipes.asking.price import price
from recipes.book import Book
from recipes.model import Build, Line, Refusal, Step, ToppingChoice
from recipes.telling import words
from service.books import wire as books_wire
from service.books.builds import Builds, line_as_data
from service.books.goods import stock
from service.books.rung import Work
from service.books.telling import build as told_build
from service.journal.refusals import Code, Refused
from service.money.totals import TaxRule
from service.orders import telling, wire
from service.orders.commands import OrderLine, RingIn
from service.orders.desk import Desk
from service.orders.events import Event, RungIn
from service.web.body import request_message
from service.web.key import request_key, request_origin
from service.web.problems import ProblemFound, field_fault
from service.web.routes import Operation, Routes, answer, answer_message
from service.web.text import NAME_LENGTH, NOTE_LENGTH, clean


def add_orders(routes: Routes, desk: Desk) -> None:
    """Quote and ring in."""

    @routes.add(
        Operation(
            "POST",
            "/api/quote",
            "quote",
            "The build and the price of one line",
            wire.Quote,
            books_wire.LineIn,
            problems=("line-refused", "no-book"),
        )
    )
    def quote() -> Response:
        asked = request_message(books_wire.LineIn)
        book = open_book(desk)
        line = whole_line(book, asked, "")
        build = build_of(desk.builds, book, line, "")
        return answer_message(wire.Quote(price=price(book, line), build=told_build(build)))

    @routes.add(
        Operation(
            "POST",
            "/api/orders",
            "ringIn",
            "Take an order",
            wire.Receipt,
            wire.RingIn,
            status=201,
            key="required",
            problems=("line-refused", "sold-out", "too-many-cups", "key-missing", "key-reused", "no-book"),
        )
    )
    def ring_in() -> Response:
        key = request_key(required=True)
        asked = request_message(wire.RingIn)
        try:
            command = order(asked, open_book(desk), desk.builds)
        except ProblemFound:
            # What was rung in before may be off the menu by the time of the retry.
            earlier = desk.handler.earlier(key)
            if earlier is None:
                raise
            return answer(earlier, 201)
        return answer(desk.handler.handle(command, _receipt, key, request_origin(key)).answer, 201)


def open_book(desk: Desk) -> Book:
    """The book in force; a problem when there is none. May raise Unavailable."""
    book = desk.book()
    if book is None:
        raise Refused(Code.NO_BOOK, "No book is open yet.", "", "")
    return book


def order(asked: wire.RingIn, book: Book, builds: Builds) -> RingIn:
    """The command that a ring-in asks for. Raises ProblemFound naming the field of the line at fault."""
    lines = tuple(
        order_line(book, drink, f"drinks[{n}].line", builds) for n, drink in enumerate(asked.drinks)
    )
    tax = TaxRule(book.tax.name, Decimal(book.tax.percent), book.tax.included, book.tax.rounded)
    return RingIn(clean(asked.name, NAME_LENGTH), lines, book.shop.currency, tax)


def order_line(book: Book, asked: wire.DrinkIn, place: str, builds: Builds) -> OrderLine:
    """A line resolved and priced. Raises ProblemFound naming the field at fault, which lies at ``place``."""
    line = whole_line(book, asked.line, place)
    build = build_of(builds, book, line, place)
    return OrderLine(
        item=line.drink,
        item_name=book.drinks[line.drink].name,
        line=line_as_data(line),
        book=book.version,
        build=build.id,
        title=words.title(book, line),
        words=words.words(book, line),
        quantity=asked.quantity,
        unit=price(book, line),
        note=clean(asked.note, NOTE_LENGTH),
        uses=build.uses,
        work=tuple(_work(step) for step in build.steps),
        needs=needs(book, line, build.uses),
        cost=build.balance.cost,
    )


def _work(step: Step) -> Work:
    time = step.duration
    spans = None if time is None else (time.low_s, time.high_s)
    # What runs by itself is begun and ended by a hand, for which the book has no figure. What has no time of
    # its own is done by hand and holds it for as long as nobody has told.
    by_hand = time is not None and time.attended
    return Work(
        station=step.station,
        label=step.short,
        low_s=time.low_s if time else 0.0,
        high_s=time.high_s if time else 0.0,
        attended_s=spans if by_hand else None,
        unattended_s=(0.0, 0.0) if time is None or by_hand else spans,
        vessel=step.into,
        ingredient=step.ingredient,
        grams=step.amount.mass_g if step.amount is not None else None,
    )


def needs(book: Book, line: Line, uses: Sequence[str]) -> dict[str, str]:
    """What must not be sold out for a line, by id, each with its name for people."""
    found = {line.drink: book.drinks[line.drink].name}
    found |= {each.topping: book.toppings[each.topping].name for each in line.toppings}
    if line.milk is not None:
        found[line.milk] = book.milks[line.milk].name
    return found | stock(book, uses)


def whole_line(book: Book, asked: books_wire.LineIn, place: str) -> Line:
    """The line with the drink's defaults filled in. Raises ProblemFound."""
    toppings = tuple(ToppingChoice(each.topping, each.half) for each in asked.toppings)
    try:
        return complete(
            book,
            asked.drink,
            size=asked.size,
            sugar=asked.sugar,
            ice=asked.ice,
            shots=asked.shots,
            toppings=toppings,
            milk=asked.milk,
            without=tuple(asked.without),
        )
    except Refusal as refusal:
        raise _refused(refusal, place) from refusal


def build_of(builds: Builds, book: Book, line: Line, place: str) -> Build:
    """The build of a whole line. Raises ProblemFound naming the field, which lies at ``place``."""
    try:
        return builds.resolve(book, line)
    except Refusal as refusal:
        raise _refused(refusal, place) from refusal


def _refused(refusal: Refusal, place: str) -> ProblemFound:
    field = f"{place}.{refusal.field}" if place else refusal.field
    fault = field_fault(field, refusal.value, refusal.accepted or "another choice")
    return ProblemFound("line-refused", refusal.message, [fault])


def _receipt(events: tuple[Event, ...], position: int) -> str:
    del position
    (rung,) = (event for event in events if isinstance(event, RungIn))
    return telling.receipt(rung).model_dump_json()
