"""A line in the customer's words: its title, and only what differs from the drink's default."""

from __future__ import annotations

from collections.abc import Mapping

from recipes.book import Book
from recipes.model import HOT, Line, Refusal, ToppingChoice


def title(book: Book, line: Line) -> str:
    """Size and name: "Large Roasted Oolong Milk Tea"."""
    return f"{book.sizes[line.size].name} {book.drinks[line.drink].name}"


def words(book: Book, line: Line) -> tuple[str, ...]:
    """What the customer asked for beyond the default: ice, sugar, toppings, shots, milk, without.

    The size is not among them: it stands in the title.
    """
    before, after = around_toppings(book, line)
    return (*before, *(topping_words(book, choice) for choice in line.toppings), *after)


def around_toppings(book: Book, line: Line) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The words that come before the toppings, and those that come after."""
    default = book.drinks[line.drink].default
    before: list[str] = []
    if line.ice != default.ice:
        before.append(HOT if line.ice == HOT else book.ices[line.ice].name)
    if line.sugar != default.sugar:
        before.append(book.sugars[line.sugar].name)
    after: list[str] = []
    if line.shots:
        after.append("1 extra shot" if line.shots == 1 else f"{line.shots} extra shots")
    if line.milk is not None:
        after.append(book.milks[line.milk].name)
    after.extend(f"no {left_out_name(book, ingredient)}" for ingredient in line.without)
    return tuple(before), tuple(after)


def topping_words(book: Book, choice: ToppingChoice) -> str:
    """One topping, whole or half."""
    name = book.toppings[choice.topping].name
    return f"½ {name}" if choice.half else name


def left_out_name(book: Book, ingredient: str) -> str:
    """How an ingredient is called after "no": its short name, in lower case."""
    return book.pantry[ingredient].short.lower()


def accepted_in_words(book: Book, refusal: Refusal) -> tuple[str, ...]:
    """What a refusal would accept, as a person says it: names in place of the ids of the book."""
    names: Mapping[str, Mapping[str, str]] = {
        "drink": {drink.id: drink.name for drink in book.drinks.values()},
        "size": {size.id: size.name.lower() for size in book.sizes.values()},
        "sugar": {str(sugar.percent): sugar.name for sugar in book.sugars.values()},
        "ice": {ice.id: ice.name for ice in book.ices.values()},
        "toppings": {topping.id: topping.name for topping in book.toppings.values()},
        "milk": {milk.id: milk.name for milk in book.milks.values()},
        "without": {id: f"no {left_out_name(book, id)}" for id in book.pantry},
    }
    known = names.get(refusal.field, {})
    return tuple(known.get(each, each) for each in refusal.accepted)
