"""Resolve per drink, against validating the same line with pydantic."""

from __future__ import annotations

import random
from collections.abc import Iterator

from recipes.book import Book
from recipes.model import Line, Refusal
from recipes.reader import read_book
from recipes.resolve import resolve
from service.cli.books import DEMO
from service.rush.customers import rush
from service.wire import LineIn
from tests.bench.figures import Figure, figure, in_turn, scaled
from tests.bench.menu import menu_of, to_line

LINES = 400
ROUNDS = 5


def lines(book: Book, count: int, seed: int) -> Iterator[tuple[LineIn, Line]]:
    """Lines as a rush rings them in, those that can be built."""
    chance = random.Random(seed)
    while count:
        for arrival in rush(menu_of(book), chance.randrange(1 << 30), 20, 60.0):
            for drink in arrival.order.drinks:
                try:
                    line = to_line(book, drink.line)
                    resolve(book, line)
                except Refusal:
                    continue
                yield drink.line, line
                count -= 1
                if not count:
                    return


def figures() -> list[Figure]:
    """One figure: microseconds a drink."""
    book = read_book(DEMO)
    drinks = list(lines(book, LINES, seed=1))
    raw = [asked.model_dump_json() for asked, _ in drinks]
    ours, floor = in_turn(
        ROUNDS * LINES,
        lambda turn: resolve(book, drinks[turn % LINES][1]),
        lambda turn: LineIn.model_validate_json(raw[turn % LINES]),
    )
    return [
        figure(
            "resolve a drink",
            "µs",
            "pydantic validates the same line",
            scaled(ours, 1e6),
            scaled(floor, 1e6),
        )
    ]
