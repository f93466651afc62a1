"""A full proof's combinations per second, against resolving the same combinations and nothing else."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import islice
from statistics import fmean
from time import perf_counter

from recipes.book import Book
from recipes.combinations import all_lines, count
from recipes.model import Line, Refusal
from recipes.proof.checks import errors_of
from recipes.proof.prove import prove_part
from recipes.reader import read_book
from recipes.resolve import resolve
from service.cli.books import DEMO
from tests.bench.figures import Figure, figure

ROUNDS = 5
PART = ("lemon_black_tea", "small")
"""A part of the demo book that takes about a second."""

SAMPLED = 400
"""How many combinations of each drink the error is taken over."""


def figures() -> list[Figure]:
    """Microseconds a combination, proved and merely resolved; and the error over the whole menu."""
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
    return [
        figure("prove a combination", "µs", "resolve the same combination", ours, floor),
        _error(read_book(DEMO)),
    ]


def _bounded(book: Book) -> Book:
    """The book with one topping a cup at most: the part stays small, each combination as it is."""
    return replace(book, toppings_max=1)


def _resolved(book: Book, line: Line) -> bool:
    try:
        resolve(book, line)
    except Refusal:
        return False
    return True


def _error(book: Book) -> Figure:
    """The error of combinations spread evenly over every drink, against the book's tolerance."""
    errors = [error for drink in book.drinks for error in _errors(book, drink)]
    name = f"error, mean (worst {max(errors):.0f} %)"
    tolerance = [book.tolerance_pct] * len(errors)
    return figure(name, "%", "the book's tolerance", [fmean(errors)] * len(errors), tolerance)


def _errors(book: Book, drink: str) -> Iterator[float]:
    apart = max(1, count(book, drink) // SAMPLED)
    for line in islice(all_lines(book, drink), 0, None, apart):
        try:
            found = errors_of(resolve(book, line))
        except Refusal:
            continue
        yield abs(found[0].error_pct) if found else 0.0
