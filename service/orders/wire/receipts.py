"""What a line and an order come to, and the answer to any other command."""

from __future__ import annotations

from service.books.wire import Build
from service.money.wire import Totals
from service.wire import Millis, Minor, Wire


class Quote(Wire):
    """POST /api/quote answers a LineIn: the build and its price, or a problem document."""

    price: Minor
    build: Build


class Difference(Wire):
    """What an order comes to once one of its cups is another, or is struck off (``build`` is None then).

    ``price`` is that of the cup alone. ``gross`` was charged at ring-in, ``due`` is what the order comes to
    now, ``after`` what it would: ``after - due`` is to be paid, or to be given back where it is below 0.
    """

    build: Build | None
    price: Minor
    gross: Minor
    due: Minor
    after: Minor


class ReceiptLine(Wire):
    """One line of a receipt."""

    title: str
    words: list[str]
    note: str
    quantity: int
    unit: Minor
    amount: Minor


class Receipt(Wire):
    """The answer to a ring-in. ``number`` is what is called out; ``id`` names the order for ever."""

    id: str
    number: int
    name: str
    day: str
    rung_at: Millis
    lines: list[ReceiptLine]
    totals: Totals


class Done(Wire):
    """The answer to a command: where the journal stands now, and whether anything changed."""

    position: int
    changed: bool
