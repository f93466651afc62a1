"""What one drink costs, in minor units: the one rule that register, balance and bench go by."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from recipes.book import Book
from recipes.model import Line, ToppingChoice


def price(book: Book, line: Line) -> int:
    """The price of ``line`` in minor units, tax in or on top as the book says.

    Size price, shots, toppings (half price for a half portion) and the milk's surcharge. ``line`` is
    canonical (from ``recipes.asking.lines``); a line that is not may raise ``KeyError``.
    """
    return drink_price(book, line) + toppings_price(book, line.toppings)


def drink_price(book: Book, line: Line) -> int:
    """The part of the price that is the same whatever the toppings."""
    total = book.drinks[line.drink].prices[line.size] + line.shots * book.shot.price
    return total if line.milk is None else total + book.milks[line.milk].price


def toppings_price(book: Book, toppings: Iterable[ToppingChoice]) -> int:
    """What toppings add to the price."""
    return sum(book.toppings[choice.topping].cost(choice.half) for choice in toppings)


def net(book: Book, gross: int) -> float:
    """A price without tax, in minor units, unrounded; the price itself where tax comes on top."""
    return (
        float(Decimal(gross) / (1 + Decimal(book.tax.percent) / 100)) if book.tax.included else float(gross)
    )
