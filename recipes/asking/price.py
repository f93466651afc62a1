"""What one drink costs, in minor units."""

from __future__ import annotations

from recipes.book import Book
from recipes.model import Line


def price(book: Book, line: Line) -> int:
    """The price of ``line`` in minor units, tax in or on top as the book says.

    Size price, shots, toppings (half price for a half portion) and the milk's surcharge. ``line`` is
    canonical (from ``recipes.asking.lines``); a line that is not may raise ``KeyError``.
    """
    drink = book.drinks[line.drink]
    total = drink.prices[line.size] + line.shots * book.shot.price
    for choice in line.toppings:
        total += book.toppings[choice.topping].cost(choice.half)
    if line.milk is not None:
        total += book.milks[line.milk].price
    return total
