"""A full proof's combinations per second, against resolving the same combinations and nothing else."""

from __future__ import annotations

from dataclasses import replace
from time import perf_counter

from recipes.book import Book
from recipes.combinations import all_lines
from recipes.model import Line, Refusal
from recipes.proof.prove import prove_part
from recipes.reader import read_book
from recipes.resolve import resolve
from service.cli.books import DEMO
from tests.bench.figures import Figure, figure

ROUNDS = 5
PART = ("lemon_black_tea", "small")
"""A part of the demo book that takes about a second."""


def figures() -> list[Figure]:
    """Microseconds a combination, proved and merely resolved."""
    book = _bounded(read_book(DEMO))
    drink, size = PART
    lines = [line for line in all_lines(book, drink) if line.size == size]
    ours, floor = [], []
    for _ in range(ROUNDS):
        begun = perf_counter()
        prove_part(book, drink, size)
        ours.append((perf_counter() - begun) / len(lines) * 1e6)
        begun = perf_counter()
        for line in lines:
            _resolved(book, line)
        floor.append((perf_counter() - begun) / len(lines) * 1e6)
    return [figure("prove a combination", "µs", "resolve the same combination", ours, floor)]


def _bounded(book: Book) -> Book:
    """The book with one topping a cup at most: the part stays small, each combination as it is."""
    return replace(book, toppings_max=1)


def _resolved(book: Book, line: Line) -> bool:
    try:
        resolve(book, line)
    except Refusal:
        return False
    return True
