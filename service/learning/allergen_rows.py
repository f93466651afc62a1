"""Which allergens stand in which drink, topping, milk and shot of a menu: the rows of the allergen sheet.

A drink is looked at in every size, at every sugar and ice level and hot, so that what only a hot drink has,
or what stands in for ice, is told as well. Pure.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from recipes.allergens import ORDER
from recipes.asking.lines import complete
from recipes.book import Book, Drink, Ingredient
from recipes.building.plan import plan


@dataclass(frozen=True, slots=True)
class AllergenRow:
    """One thing that can be ordered: what every cup of it ``contains``, and what only ``some`` do.

    Both are told words in the order of the Annex; ``inset`` rows belong to the one above them.
    """

    name: str
    contains: tuple[str, ...]
    some: tuple[str, ...] = ()
    inset: bool = False


@dataclass(frozen=True, slots=True)
class AllergenSection:
    """Rows under a heading: a family of drinks, the toppings, the milks, the shots."""

    name: str
    rows: tuple[AllergenRow, ...]


def in_use(book: Book) -> tuple[str, ...]:
    """Every allergen that the pantry names, in the order of the Annex: the columns of the sheet."""
    return _ordered({each for ingredient in book.pantry.values() for each in ingredient.allergens})


def sections(book: Book) -> list[AllergenSection]:
    """The whole menu: families in its order, then what goes on top of a drink or into it."""
    found = [
        AllergenSection(
            family.name,
            tuple(
                row for each in book.drinks.values() if each.family == id for row in _drink_rows(book, each)
            ),
        )
        for id, family in book.families.items()
    ]
    toppings = tuple(_alone(each.name, book.pantry[each.ingredient]) for each in book.toppings.values())
    milks = tuple(_alone(each.name, book.pantry[each.ingredient]) for each in book.milks.values())
    shot = book.pantry[book.shot.ingredient]
    found += [
        AllergenSection("Toppings", toppings),
        AllergenSection("Milks", milks),
        AllergenSection("Extra shot", (_alone(shot.name, shot),)),
    ]
    return [section for section in found if section.rows]


def _drink_rows(book: Book, drink: Drink) -> Iterator[AllergenRow]:
    """The drink as it comes, then with each milk that is not its own."""
    yield _row(book, drink, drink.name, None)
    for id, milk in book.milks.items():
        if id in drink.milks and complete(book, drink.id, milk=id).milk is not None:
            yield _row(book, drink, f"with {milk.name}", id)


def _row(book: Book, drink: Drink, name: str, milk: str | None) -> AllergenRow:
    """What every cup of it has, and what some may have: what tops a drink up goes in only where ice lacks."""
    every: list[set[str]] = []
    some: set[str] = set()
    for size in drink.sizes:
        for sugar in drink.sugars:
            for ice in drink.ices:
                made = plan(book, complete(book, drink.id, size=size, sugar=sugar, ice=ice, milk=milk))
                every.append({each for part in made.parts for each in part.ingredient.allergens})
                some |= every[-1]
                if made.top_up is not None:
                    some |= set(made.top_up.ingredient.allergens)
    always = set.intersection(*every)
    return AllergenRow(name, _ordered(always), _ordered(some - always), inset=milk is not None)


def _alone(name: str, ingredient: Ingredient) -> AllergenRow:
    return AllergenRow(name, ingredient.allergens)


def _ordered(words: set[str]) -> tuple[str, ...]:
    return tuple(sorted(words, key=ORDER.__getitem__))
