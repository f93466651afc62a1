"""Every line that the register can ring in, in a stable order."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, product

from recipes.book import Book
from recipes.lines import own_milk
from recipes.model import Line, ToppingChoice


def all_lines(book: Book, drink_id: str) -> Iterator[Line]:
    """Every line of a drink."""
    drink = book.drinks[drink_id]
    own = own_milk(book, drink)
    milks = [None, *(milk for milk in drink.milks if milk != own)]
    lefts = [tuple(sorted(c)) for n in range(len(drink.without) + 1) for c in combinations(drink.without, n)]
    tops = [
        tuple(ToppingChoice(t, h) for t, h in zip(c, halves, strict=True))
        for n in range(min(book.toppings_max, len(drink.toppings)) + 1)
        for c in combinations(sorted(drink.toppings), n)
        for halves in product((False, True), repeat=n)
    ]
    for size, milk, without, toppings, shots, ice, sugar in product(
        drink.sizes, milks, lefts, tops, range(drink.shots + 1), drink.ices, drink.sugars
    ):
        yield Line(drink.id, size, sugar, ice, shots, toppings, milk, without)


def count(book: Book, drink_id: str) -> int:
    """How many there are."""
    return sum(1 for _ in all_lines(book, drink_id))
