"""What a drink brings: its price without tax, less what goes in."""

from __future__ import annotations

from decimal import Decimal

from recipes.asking.price import price
from recipes.book import Book
from recipes.model import Build, Line
from service.bench.wire import Money


def ingredients_cost(book: Book, build: Build) -> float:
    """What the ingredients of a build cost, in minor units, at the pantry's prices."""
    return sum(
        step.amount.mass_g * book.pantry[step.ingredient].price_per_kg / 1000
        for step in build.steps
        if step.ingredient is not None and step.amount is not None
    )


def money(book: Book, line: Line, build: Build) -> Money:
    """The price of a line, without tax where tax is in it, and what is left after its ingredients."""
    gross = price(book, line)
    share = 1 + Decimal(book.tax.percent) / 100
    net = float(Decimal(gross) / share) if book.tax.included else float(gross)
    cost = ingredients_cost(book, build)
    margin = net - cost
    return Money(
        price=gross,
        net=round(net, 2),
        cost=round(cost, 2),
        margin=round(margin, 2),
        margin_pct=round(100 * margin / net, 1) if net else 0.0,
    )
