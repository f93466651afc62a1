"""Every line that the register can ring in, in a stable order: the size last to change, the sugar first."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, product
from math import comb

from recipes.book import Book, Drink
from recipes.lines import own_milk
from recipes.model import Line, ToppingChoice


def all_lines(book: Book, drink_id: str) -> Iterator[Line]:
    """Every line of a drink that ``recipes.lines.complete`` accepts, each once, canonical."""
    drink = book.drinks[drink_id]
    toppings = list(_toppings(book, drink))
    for size, milk, without, chosen, shots, ice, sugar in product(
        drink.sizes,
        _milks(book, drink),
        list(_without(drink)),
        toppings,
        range(drink.shots + 1),
        drink.ices,
        drink.sugars,
    ):
        yield Line(drink.id, size, sugar, ice, shots, chosen, milk, without)


def count(book: Book, drink_id: str) -> int:
    """How many lines there are, without making them."""
    drink = book.drinks[drink_id]
    most = min(book.toppings_max, len(drink.toppings))
    toppings = sum(comb(len(drink.toppings), n) * (1 << n) for n in range(most + 1))
    levels = len(drink.sizes) * len(drink.sugars) * len(drink.ices) * (drink.shots + 1)
    return levels * toppings * len(_milks(book, drink)) * (1 << len(drink.without))


def _toppings(book: Book, drink: Drink) -> Iterator[tuple[ToppingChoice, ...]]:
    """No topping, then each, then every two and so on, whole and half."""
    for n in range(min(book.toppings_max, len(drink.toppings)) + 1):
        for chosen in combinations(sorted(drink.toppings), n):
            for halves in product((False, True), repeat=n):
                yield tuple(ToppingChoice(id, half) for id, half in zip(chosen, halves, strict=True))


def _milks(book: Book, drink: Drink) -> list[str | None]:
    """The recipe's own milk (None), then the others."""
    own = own_milk(book, drink)
    return [None, *(milk for milk in drink.milks if milk != own)]


def _without(drink: Drink) -> Iterator[tuple[str, ...]]:
    for n in range(len(drink.without) + 1):
        yield from combinations(sorted(drink.without), n)
