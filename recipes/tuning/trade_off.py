"""Taste against hands over a whole menu: what more or less patience (``[hands]`` in shop.toml) makes of it.

For each patience the same lines are resolved, and told is how many builds are fussy, how long hands measure
for a drink, and how far its parts are off what the recipe wants. The more patience, the finer and the
slower; the owner looks for the knee.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from recipes.asking.combinations import count, drawn
from recipes.book import Book, Drink
from recipes.building.resolve import resolve
from recipes.hands import Hands, fuss, seconds
from recipes.model import Build, Line, Refusal, Step

PATIENCES = (1.0, 2.0, 4.0, 8.0, 16.0, 32.0, 64.0)
"""Seconds of hands that an ingredient 10 % off may be worth: from a bar in a hurry to one that has time."""

EVERY = 25
"""After how many lines progress is told."""


@dataclass(frozen=True, slots=True)
class Point:
    """One patience, s: how many lines are ``built``, the share of fussy builds in per cent, mean seconds that
    hands measure for a drink, and the median and 95th percentile of parts' errors in per cent. Sweeteners are
    left out of those: they are held to the nearest step of their tool whatever the patience.
    """

    patience: float
    built: int
    refused: int
    fussy_pct: float
    seconds: float
    median_pct: float
    p95_pct: float


def patiences(book: Book) -> list[float]:
    """The values to look at, the book's own among them."""
    return sorted({*PATIENCES, book.hands.patience})


def sample(book: Book, size: int, below: Callable[[int], int]) -> list[Line]:
    """Lines of the whole menu, each as likely as any other; ``below`` draws a number from 0 to n - 1."""
    drinks = list(book.drinks)
    ends: list[int] = []
    for drink in drinks:
        ends.append((ends[-1] if ends else 0) + count(book, drink))
    lines = []
    for _ in range(size):
        place = below(ends[-1])
        drink = next(each for each, end in zip(drinks, ends, strict=True) if place < end)
        lines.append(drawn(book, drink, below))
    return lines


def reckon(
    book: Book,
    lines: Iterable[Line],
    patience: float,
    on_progress: Callable[[int], None] = lambda lines: None,
) -> Point:
    """What the lines come to at a patience. ``on_progress`` is told how many more were looked at."""
    hands = replace(book.hands, patience=patience)
    with_it = replace(book, hands=hands)
    errors: list[float] = []
    spent: list[float] = []
    fussy = refused = seen = 0
    for line in lines:
        seen += 1
        if seen % EVERY == 0:
            on_progress(EVERY)
        try:
            build = resolve(with_it, line)
        except Refusal:
            refused += 1
            continue
        errors += _errors(with_it.drinks[line.drink], build)
        spent.append(_seconds(with_it, hands, build))
        fussy += is_fussy(with_it, build)
    on_progress(seen % EVERY)
    built = len(spent)
    return Point(
        patience=patience,
        built=built,
        refused=refused,
        fussy_pct=round(100 * fussy / built, 2) if built else 0.0,
        seconds=round(math.fsum(spent) / built, 2) if built else 0.0,
        median_pct=round(percentile(errors, 50), 2),
        p95_pct=round(percentile(errors, 95), 2),
    )


def is_fussy(book: Book, build: Build) -> bool:
    """Whether anything in a build is fussy: an odd measure, or a second tool for one ingredient."""
    odd = (
        fuss(book.tools[step.amount.tool].measure(step.amount.count)) is not None
        for step in build.steps
        if step.amount is not None
    )
    return any(odd) or _second_tools(book.drinks[build.line.drink], build.steps) > 0


def percentile(values: Sequence[float], share: float) -> float:
    """The smallest value that at least ``share`` per cent do not exceed (nearest rank); 0 of none."""
    ordered = sorted(values)
    return ordered[max(0, math.ceil(share / 100 * len(ordered)) - 1)] if ordered else 0.0


def _errors(drink: Drink, build: Build) -> Iterator[float]:
    sweet = {step.ingredient for step in drink.steps if step.role == "sweetener"}
    return (abs(each.error_pct) for each in build.errors if each.ingredient not in sweet)


def _seconds(book: Book, hands: Hands, build: Build) -> float:
    measured = math.fsum(
        seconds(hands, book.tools[step.amount.tool].measure(step.amount.count))
        for step in build.steps
        if step.amount is not None
    )
    return measured + hands.other_tool * _second_tools(book.drinks[build.line.drink], build.steps)


def _second_tools(drink: Drink, steps: Sequence[Step]) -> int:
    """How often one step of the recipe measures its ingredient with a second tool after the first."""
    written = [step.ingredient for step in drink.steps]
    return sum(
        1
        for first, second in pairwise(steps)
        if first.amount is not None
        and second.amount is not None
        and first.ingredient == second.ingredient
        and first.amount.tool != second.amount.tool
        and written.count(first.ingredient) < 2
    )
