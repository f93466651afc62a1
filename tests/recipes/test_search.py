"""The search against brute force: over a far wider grid, nothing scores better than what is chosen."""

from __future__ import annotations

import math
from itertools import product

import pytest

from recipes.aim import Aim
from recipes.balance.load import Load, settle
from recipes.book import Book, Taste
from recipes.kitchen import Kitchen
from recipes.lines import complete
from recipes.modifiers import Part
from recipes.options import Option, options
from recipes.search import Limits, search, weight
from tests.recipes.cases import SHOP, T6, bar


def score(kitchen: Kitchen, target: Aim, taste: Taste, chosen: dict[Part, Option], limits: Limits) -> float:
    """J as written down in recipes.search, reckoned anew; infinite over a limit."""
    load = Load()
    for part, option in chosen.items():
        load = load.plus(part.unit, option.ml)
    settled = settle(load, kitchen.plan.melt_share)
    if settled.filled_ml > limits.room_ml + 1e-6 or load.unmelted_ml > limits.vessel_ml + 1e-6:
        return math.inf
    wanted = dict(zip(kitchen.plan.parts, target.wanted_ml, strict=True))
    if kitchen.plan.top_up is not None:
        wanted[kitchen.plan.top_up] = target.top_up_ml
    total = taste.fill * (settled.liquid_ml / target.settled.liquid_ml - 1) ** 2
    for part, option in chosen.items():
        total += taste.second_tool * max(0, len(option.counts) - 1)
        if part is kitchen.plan.shots or wanted[part] < 0.05:
            continue
        off = option.ml / wanted[part]
        if part.role not in ("ice", "top_up"):
            off *= target.settled.liquid_ml / settled.liquid_ml
        total += weight(taste, part) * (off - 1) ** 2
    return total


def brute(kitchen: Kitchen, target: Aim, taste: Taste, limits: Limits, most: int) -> tuple[float, int]:
    """The least J over all amounts a quarter, and more than a step, either side of the wanted one."""
    rows: list[list[tuple[Part, Option]]] = []
    wanted = [*zip(kitchen.plan.parts, target.wanted_ml, strict=True)]
    if kitchen.plan.top_up is not None:
        wanted.append((kitchen.plan.top_up, target.top_up_ml))
    for part, ml in wanted:
        if part is kitchen.plan.shots:
            rows.append([(part, Option(ml, ()))])
        elif ml < 0.05:
            rows.append([(part, Option(0.0, ()))])
        else:
            span = max(0.25 * ml, 1.01 * part.tools[-1].step_ml)
            rows.append(
                [(part, option) for option in options(part.tools, max(0.0, ml - span), ml + span, ml)]
            )
    size = math.prod(len(row) for row in rows)
    assert size <= most, [len(row) for row in rows]
    return min(score(kitchen, target, taste, dict(chosen), limits) for chosen in product(*rows)), size


CASES = [
    # drink, size, sugar, ice, shots, milk, without, room as a share of the seal line
    ("it", "small", 100, "regular", 0, None, (), 1.0),
    ("it", "small", 50, "less", 0, None, (), 1.0),
    ("it", "medium", 125, "regular", 1, None, (), 1.0),
    ("it", "medium", 100, "regular", 0, None, (), 0.7),
    ("it", "large", 50, "extra", 0, None, ("creamer",), 0.8),
    ("it", "small", 0, "none", 0, None, (), 0.9),
    ("it", "medium", 0, "hot", 1, None, (), 0.8),
]


@pytest.mark.parametrize(("drink", "size", "sugar", "ice", "shots", "milk", "without", "share"), CASES)
def test_nothing_measurable_scores_better(
    drink: str,
    size: str,
    sugar: int,
    ice: str,
    shots: int,
    milk: str | None,
    without: tuple[str, ...],
    share: float,
) -> None:
    book = bar(T6, shop=SHOP.replace('kind = "jug"\nsmallest = "5"', 'kind = "jug"\nsmallest = "7.5"'))
    _holds(book, drink, size, sugar, ice, shots, milk, without, share)


DEMO_CASES = [
    ("mango_green_tea", "small", 25, "regular", 0, None, (), 1.0),
    ("mango_green_tea", "large", 75, "extra", 0, None, (), 0.8),
    ("brown_sugar_milk", "small", 50, "none", 0, "oat", (), 0.9),
    ("hot_cocoa", "small", 25, "hot", 1, None, (), 0.8),
    ("jasmine_milk_tea", "small", 25, "hot", 0, "soy", (), 0.9),
    ("steamed_matcha_milk", "small", 75, "hot", 0, None, (), 0.85),
]


@pytest.mark.parametrize(("drink", "size", "sugar", "ice", "shots", "milk", "without", "share"), DEMO_CASES)
def test_nothing_measurable_scores_better_on_the_demo_menu(
    demo: Book,
    drink: str,
    size: str,
    sugar: int,
    ice: str,
    shots: int,
    milk: str | None,
    without: tuple[str, ...],
    share: float,
) -> None:
    _holds(demo, drink, size, sugar, ice, shots, milk, without, share)


def _holds(
    book: Book,
    drink: str,
    size: str,
    sugar: int,
    ice: str,
    shots: int,
    milk: str | None,
    without: tuple[str, ...],
    share: float,
) -> None:
    kitchen = Kitchen(book, complete(book, drink, size, sugar, ice, shots, (), milk, without))
    limits = Limits(kitchen.line_ml * share, kitchen.vessel_ml)
    target = kitchen.aim(limits.room_ml)
    choice = search(kitchen.plan, target, limits, book.taste)
    assert choice is not None
    chosen = dict(zip(kitchen.plan.parts, choice.amounts, strict=True))
    if kitchen.plan.top_up is not None:
        chosen[kitchen.plan.top_up] = choice.top_up
    assert choice.score == pytest.approx(score(kitchen, target, book.taste, chosen, limits), abs=1e-9)
    best, size_of_grid = brute(kitchen, target, book.taste, limits, 400_000)
    assert size_of_grid > 40
    assert choice.score <= best + 1e-9
