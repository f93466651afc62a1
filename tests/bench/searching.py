"""What the exact choice leaves over, against trying everything; and the error over the whole menu."""

from __future__ import annotations

from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from itertools import islice
from multiprocessing import get_context
from statistics import fmean

from recipes.asking.combinations import all_lines
from recipes.book import Book
from recipes.building.drink import PlannedDrink
from recipes.building.resolve import resolve
from recipes.building.search import Efforts, Limits, search
from recipes.model import Refusal
from recipes.proof.checks import errors_of
from recipes.reading.reader import read_book
from service.cli.books import DEMO
from tests.bench.figures import Figure
from tests.recipes.brute import TooMany, brute

EVERY = 41
"""Of a drink's lines without toppings, one in so many is also tried by brute force."""

MOST_TRIED = 4_000
"""How large a grid brute force may be here; larger ones are passed over and counted."""


def figures() -> list[Figure]:
    """The score left over (mean J, thousandths), and the worst component's error of every combination (%)."""
    book = read_book(DEMO)
    pairs, passed_over = [], 0
    for pair in _gaps(book):
        if pair is None:
            passed_over += 1
        else:
            pairs.append(pair)
    ours, best = fmean(one for one, _ in pairs), fmean(other for _, other in pairs)
    gap = max(one - other for one, other in pairs)
    name = f"score left over (largest gap {max(0.0, gap):.1e}; {passed_over} too large to try)"
    floor_is = "brute force over a wider grid"
    return [
        Figure(name, "‰", 1e3 * ours, 1e3 * best, ours / best, 0.0, 0.0, len(pairs), floor_is),
        _errors(book),
    ]


def _gaps(book: Book) -> Iterator[tuple[float, float] | None]:
    """J as chosen and the least J there is; None where there are too many amounts to try."""
    efforts = Efforts(book.hands)
    for drink in book.drinks:
        plain = (line for line in all_lines(book, drink) if not line.toppings)
        for line in islice(plain, 0, None, EVERY):
            planned = PlannedDrink(book, line)
            limits = Limits(planned.line_ml, planned.vessel_ml)
            target = planned.target(limits.room_ml)
            choice = search(planned.plan, target, limits, book.taste, efforts)
            if choice is None:
                continue
            try:
                best, _ = brute(planned, target, book.taste, limits, MOST_TRIED)
            except TooMany:
                yield None
            else:
                yield choice.score, best


def _errors(book: Book) -> Figure:
    """Every combination of the menu: the mean over them of the worst part's error, and the worst of all."""
    with ProcessPoolExecutor(2, get_context("spawn")) as pool:
        found = list(pool.map(_errors_of_drink, book.drinks))
    count = sum(n for n, _, _ in found)
    mean = sum(total for _, total, _ in found) / count
    name = f"error, mean of all (worst {max(worst for _, _, worst in found):.1f} %)"
    tolerance = book.tolerance_pct
    return Figure(name, "%", mean, tolerance, mean / tolerance, 0.0, 0.0, count, "the book's tolerance")


def _errors_of_drink(drink: str) -> tuple[int, float, float]:
    """How many combinations were built, the sum of their worst part's errors, and the worst of those."""
    book = read_book(DEMO)
    count, total, worst = 0, 0.0, 0.0
    for line in all_lines(book, drink):
        try:
            errors = errors_of(resolve(book, line))
        except Refusal:
            continue
        error = abs(errors[0].error_pct) if errors else 0.0
        count, total, worst = count + 1, total + error, max(worst, error)
    return count, total, worst
