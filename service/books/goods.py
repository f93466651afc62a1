"""What must not have run out for a drink: its ingredients, and the milks and toppings that they are."""

from __future__ import annotations

from collections.abc import Iterable

from recipes.book import Book


def stock(book: Book, uses: Iterable[str]) -> dict[str, str]:
    """What of the book's goods goes in, by id, each with its name for people.

    ``uses`` are ingredients. A milk or topping made of one of them counts by its own id too, whoever chose
    it: a recipe's own milk and the milk of a top-up are sold out with the milk on the menu.
    """
    used = list(uses)
    found = {milk.id: milk.name for milk in book.milks.values() if milk.ingredient in used}
    found |= {each.id: each.name for each in book.toppings.values() if each.ingredient in used}
    for ingredient in used:
        found.setdefault(
            ingredient, book.pantry[ingredient].name if ingredient in book.pantry else ingredient
        )
    return found
