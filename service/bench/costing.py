"""What a drink brings: its price without tax, less what goes in."""

from __future__ import annotations

from recipes.asking.price import net, price
from recipes.book import Book
from recipes.model import Build, Line
from service.bench.wire import Money


def money(book: Book, line: Line, build: Build) -> Money:
    """The price of a line, without tax where tax is in it, and what is left after its ingredients."""
    gross = price(book, line)
    left, cost = net(book, gross), build.balance.cost
    margin = left - cost
    return Money(
        price=gross,
        net=round(left, 2),
        cost=round(cost, 2),
        margin=round(margin, 2),
        margin_pct=round(100 * margin / left, 1) if left else 0.0,
    )
