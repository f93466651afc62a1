"""Every line that the register can ring in, in a stable order: exactly what ``recipes.asking.lines``
accepts.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import combinations, product
from math import comb

from recipes.asking.lines import own_milk
from recipes.book import Book, Drink
from recipes.model import Line, ToppingChoice


def all_lines(book: Book, drink_id: str, size: str | None = None) -> Iterator[Line]:
    """Every line of a drink, or of one of its sizes, canonical, none twice; sugar varies fastest, then ice,
    shots and toppings."""
    drink = book.drinks[drink_id]
    for each, milk, without, toppings, shots, ice, sugar in product(
        drink.sizes if size is None else (size,),
        _milks(book, drink),
        _left_out(drink),
        _toppings(book, drink),
        range(drink.shots + 1),
        drink.ices,
        drink.sugars,
    ):
        yield Line(drink.id, each, sugar, ice, shots, toppings, milk, without)


def count(book: Book, drink_id: str) -> int:
    """How many lines ``all_lines`` gives, without making them."""
    drink = book.drinks[drink_id]
    halved = sum(book.toppings[topping].half_price is not None for topping in drink.toppings)
    whole = len(drink.toppings) - halved
    most = min(book.toppings_max, len(drink.toppings))
    # h of the toppings that are halved, each whole or half, with n - h of those that are not.
    toppings = sum(
        comb(halved, h) * (1 << h) * comb(whole, n - h) for n in range(most + 1) for h in range(n + 1)
    )
    choices = len(drink.sizes) * len(drink.sugars) * len(drink.ices) * (drink.shots + 1)
    return choices * toppings * len(_milks(book, drink)) * (1 << len(drink.without))


def drawn(book: Book, drink_id: str, below: Callable[[int], int]) -> Line:
    """One line of a drink, each as likely as any other; ``below`` draws a whole number from 0 to n - 1."""
    drink = book.drinks[drink_id]
    milks, without, toppings = _milks(book, drink), _left_out(drink), _toppings(book, drink)
    return Line(
        drink.id,
        drink.sizes[below(len(drink.sizes))],
        drink.sugars[below(len(drink.sugars))],
        drink.ices[below(len(drink.ices))],
        below(drink.shots + 1),
        toppings[below(len(toppings))],
        milks[below(len(milks))],
        without[below(len(without))],
    )


def _milks(book: Book, drink: Drink) -> list[str | None]:
    """The recipe's own milk (None), then the others."""
    own = own_milk(book, drink)
    return [None, *(milk for milk in drink.milks if milk != own)]


def _left_out(drink: Drink) -> list[tuple[str, ...]]:
    names = sorted(drink.without)
    return [chosen for n in range(len(names) + 1) for chosen in combinations(names, n)]


def _toppings(book: Book, drink: Drink) -> list[tuple[ToppingChoice, ...]]:
    offered = sorted(drink.toppings)
    return [
        tuple(ToppingChoice(topping, half) for topping, half in zip(chosen, halves, strict=True))
        for n in range(min(book.toppings_max, len(offered)) + 1)
        for chosen in combinations(offered, n)
        for halves in product(*(_portions(book, topping) for topping in chosen))
    ]


def _portions(book: Book, topping: str) -> tuple[bool, ...]:
    """Whether half or not: what a topping is served as."""
    return (False,) if book.toppings[topping].half_price is None else (False, True)
