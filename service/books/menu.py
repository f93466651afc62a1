"""The book as the register sees it."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from recipes.book import Book, Drink
from recipes.model import Refusal
from recipes.reading.faults import Fault
from recipes.telling.words import left_out_name
from service.books import wire
from service.books.builds import Builds
from service.books.goods import stock
from service.money.totals import plain


def menu(version: str, book: Book, faults: Sequence[Fault], builds: Builds | None) -> wire.Menu:
    """All that can be rung in from the book in force, and what is wrong with a newer one.

    ``version`` is the one that was opened; that of ``book`` differs when newer rules read its files.
    Without ``builds`` a drink's uses are all that its steps name, whether it comes with it or not.
    """
    return wire.Menu(
        book=version,
        shop=wire.Shop(
            name=book.shop.name,
            town=book.shop.town,
            currency=book.shop.currency,
            minor_digits=book.shop.minor_digits,
            time_zone=book.shop.time_zone,
        ),
        floor=wire.Floor(
            soon_s=book.floor.soon_s,
            late_s=book.floor.late_s,
            bump=book.floor.bump,
            board_keeps_s=book.floor.board_keeps_s,
        ),
        stations=[wire.Station(id=each.id, name=each.name) for each in book.stations.values()],
        families=[wire.Family(id=each.id, name=each.name) for each in book.families.values()],
        drinks=[_drink(book, drink, builds) for drink in book.drinks.values()],
        sizes=[
            wire.Size(id=each.id, name=each.name, line_ml=each.line_ml, brim_ml=each.brim_ml)
            for each in book.sizes.values()
        ],
        sugars=[wire.SugarLevel(percent=each.percent, name=each.name) for each in book.sugars.values()],
        ices=[wire.Choice(id=each.id, name=each.name) for each in book.ices.values()],
        toppings=[_topping(book, id) for id in book.toppings],
        toppings_max=book.toppings_max,
        milks=[_milk(book, id) for id in book.milks],
        ingredients=_ingredients(book),
        shot_price=book.shot.price,
        shot_item=book.shot.ingredient,
        tax=wire.TaxRule(
            name=book.tax.name,
            percent=plain(Decimal(book.tax.percent)),
            included=book.tax.included,
            rounded=book.tax.rounded,
        ),
        faults=book_faults(faults),
    )


def book_faults(faults: Sequence[Fault]) -> list[wire.BookFault]:
    """The faults of a book that was refused."""
    return [
        wire.BookFault(
            file=each.file,
            line=each.line,
            key=each.key,
            found=each.found,
            accepted=each.accepted,
            message=each.message,
        )
        for each in faults
    ]


def _uses(book: Book, drink: Drink, builds: Builds | None) -> list[str]:
    if builds is not None:
        try:
            return list(builds.resolve(book, drink.default).uses)
        except Refusal:
            pass
    return sorted({step.ingredient for step in drink.steps if step.ingredient})


def _drink(book: Book, drink: Drink, builds: Builds | None) -> wire.MenuDrink:
    uses = list(stock(book, _uses(book, drink, builds)))
    return wire.MenuDrink(
        id=drink.id,
        name=drink.name,
        family=drink.family,
        about=drink.about,
        prices=dict(drink.prices),
        sizes=list(drink.sizes),
        sugars=list(drink.sugars),
        ices=list(drink.ices),
        shots=drink.shots,
        toppings=list(drink.toppings),
        milks=list(drink.milks),
        without=[
            wire.Choice(id=id, name=left_out_name(book, id), allergens=list(book.pantry[id].allergens))
            for id in drink.without
        ],
        default=drink.default,
        uses=uses,
    )


def _ingredients(book: Book) -> list[wire.Choice]:
    """What recipes use and can run out, by name: not ice and tap water, nor toppings and milks."""
    own = {each.ingredient for each in book.toppings.values()}
    own |= {each.ingredient for each in book.milks.values()}
    used = {book.shot.ingredient}
    for drink in book.drinks.values():
        for step in drink.steps:
            used |= {step.ingredient or "", *step.instead.values()}
        if drink.top_up is not None:
            used |= {drink.top_up.cold, drink.top_up.hot or ""}
    found = [book.pantry[id] for id in used & set(book.pantry) - own]
    return [
        wire.Choice(id=each.id, name=each.name, allergens=list(each.allergens))
        for each in sorted(found, key=lambda each: each.name)
        if each.kind != "ice" and each.price_per_kg > 0
    ]


def _topping(book: Book, id: str) -> wire.Choice:
    topping = book.toppings[id]
    return wire.Choice(
        id=id,
        name=topping.name,
        price=topping.price,
        half_price=topping.half_price,
        allergens=list(book.pantry[topping.ingredient].allergens),
        caution=topping.caution,
    )


def _milk(book: Book, id: str) -> wire.Choice:
    milk = book.milks[id]
    return wire.Choice(
        id=id, name=milk.name, price=milk.price, allergens=list(book.pantry[milk.ingredient].allergens)
    )
