"""A line in the customer's words: its title, and only what differs from the drink's default."""

from __future__ import annotations

from recipes.book import Book
from recipes.model import HOT, Line


def title(book: Book, line: Line) -> str:
    """Size and name: "Large Roasted Oolong Milk Tea"."""
    return f"{book.sizes[line.size].name} {book.drinks[line.drink].name}"


def words(book: Book, line: Line) -> tuple[str, ...]:
    """What the customer asked for beyond the default: ice, sugar, toppings, shots, milk, without.

    The size is not among them: it stands in the title.
    """
    default = book.drinks[line.drink].default
    said: list[str] = []
    if line.ice != default.ice:
        said.append(HOT if line.ice == HOT else book.ices[line.ice].name)
    if line.sugar != default.sugar:
        said.append(book.sugars[line.sugar].name)
    for choice in line.toppings:
        name = book.toppings[choice.topping].name
        said.append(f"½ {name}" if choice.half else name)
    if line.shots:
        said.append("1 extra shot" if line.shots == 1 else f"{line.shots} extra shots")
    if line.milk is not None:
        said.append(book.milks[line.milk].name)
    said.extend(f"no {left_out_name(book, ingredient)}" for ingredient in line.without)
    return tuple(said)


def left_out_name(book: Book, ingredient: str) -> str:
    """How an ingredient is called after "no": its short name, in lower case."""
    return book.pantry[ingredient].short.lower()
