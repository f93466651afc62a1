"""Amounts by size as the bench tells them: what follows, and what is proposed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from recipes.book import Book, Drink, RecipeStep
from recipes.building.plan import amount_at
from recipes.model import HOT
from recipes.tuning.proposing import Offer, Proposal, proposals, told
from service.bench.wire import CellAmount, OfferedAmount, ProposedAmount


def cells(book: Book, drink_id: str) -> list[CellAmount]:
    """What each step of a drink puts in at every size, iced and, where that can differ, hot."""
    drink = book.drinks.get(drink_id)
    return [] if drink is None else list(_cells(book, drink))


def proposed(book: Book, drinks: Sequence[str] | None, anew: bool) -> list[ProposedAmount]:
    """Proposals for drinks of a book (None: for all), in the order of the menu; those that change nothing
    are left out.
    """
    wanted = [id for id in book.drinks if drinks is None or id in drinks]
    return [
        _row(book, each)
        for id in wanted
        for each in proposals(book, id, anew)
        if each.written is None or abs(each.written.ml - each.best.ml) > 1e-6
    ]


def _cells(book: Book, drink: Drink) -> Iterator[CellAmount]:
    for place, step in enumerate(drink.steps):
        for hot in _sides(drink, step):
            for size in drink.sizes:
                amount = amount_at(book, drink, step, size, hot)
                if amount is None:
                    continue
                yield CellAmount(
                    step=place,
                    size=size,
                    hot=hot,
                    text=told(book.tools[amount.tool], amount.ml),
                    written=size in (step.hot if hot else step.by_size),
                )


def _sides(drink: Drink, step: RecipeStep) -> tuple[bool, ...]:
    return (False, True) if HOT in drink.ices and step.when != "iced" and step.role != "ice" else (False,)


def _row(book: Book, one: Proposal) -> ProposedAmount:
    written = one.written
    return ProposedAmount(
        drink=one.drink,
        drink_name=book.drinks[one.drink].name,
        step=one.step,
        name=book.pantry[one.ingredient].name,
        size=one.size,
        size_name=book.sizes[one.size].name,
        hot=one.hot,
        wanted=one.wanted,
        written=None if written is None else told(book.tools[written.tool], written.ml),
        best=_offer(one.best),
        others=[_offer(each) for each in one.others],
        lowered=one.lowered,
    )


def _offer(offer: Offer) -> OfferedAmount:
    return OfferedAmount(
        text=offer.text,
        error_pct=round(offer.error_pct, 2),
        seconds=offer.seconds,
        alike=[list(levels) for levels in offer.alike],
    )
