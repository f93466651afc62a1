"""The search against brute force: over a far wider grid, nothing scores better than what is chosen."""

from __future__ import annotations

import itertools

import pytest

from recipes.asking.lines import complete
from recipes.balance.sucrose import solution_density
from recipes.book import Book
from recipes.building.drink import PlannedDrink
from recipes.building.search import DRY_ML, ROUGH_DRY_ML, ROUGHLY, WATER_ML, Efforts, Limits, search
from tests.recipes.brute import brute, score
from tests.recipes.cases import SHOP, T6, bar

Case = tuple[str, str, int, str, int, str | None, tuple[str, ...], float]

CASES: list[Case] = [
    # drink, size, sugar, ice, shots, milk, without, room as a share of the seal line
    ("it", "small", 100, "regular", 0, None, (), 1.0),
    ("it", "small", 50, "less", 0, None, (), 1.0),
    ("it", "medium", 125, "regular", 1, None, (), 1.0),
    ("it", "medium", 100, "regular", 0, None, (), 0.7),
    ("it", "large", 50, "extra", 0, None, ("creamer",), 0.8),
    ("it", "small", 0, "none", 0, None, (), 0.9),
    ("it", "medium", 0, "hot", 1, None, (), 0.8),
]


@pytest.mark.parametrize("case", CASES)
def test_nothing_measurable_scores_better(case: Case) -> None:
    book = bar(T6, shop=SHOP.replace('kind = "jug"\nsmallest = "5"', 'kind = "jug"\nsmallest = "7.5"'))
    _holds(book, case)


DEMO_CASES: list[Case] = [
    ("mango_green_tea", "small", 25, "regular", 0, None, (), 1.0),
    ("mango_green_tea", "large", 75, "extra", 0, None, (), 0.8),
    ("brown_sugar_milk", "small", 50, "none", 0, "oat", (), 0.9),
    ("hot_cocoa", "small", 25, "hot", 1, None, (), 0.8),
    ("jasmine_milk_tea", "small", 25, "hot", 0, "soy", (), 0.9),
    ("steamed_matcha_milk", "small", 75, "hot", 0, None, (), 0.85),
]


@pytest.mark.parametrize("case", DEMO_CASES)
def test_nothing_measurable_scores_better_on_the_demo_menu(demo: Book, case: Case) -> None:
    _holds(demo, case)


def _holds(book: Book, case: Case) -> None:
    drink, size, sugar, ice, shots, milk, without, share = case
    planned = PlannedDrink(book, complete(book, drink, size, sugar, ice, shots, (), milk, without))
    limits = Limits(planned.line_ml * share, planned.vessel_ml)
    target = planned.target(limits.room_ml)
    choice = search(planned.plan, target, limits, book.taste, Efforts(book.hands))
    assert choice is not None
    chosen = dict(zip(planned.plan.parts, choice.amounts, strict=True))
    if planned.plan.top_up is not None:
        chosen[planned.plan.top_up] = choice.top_up
    assert choice.score == pytest.approx(score(planned, target, book.taste, chosen, limits), abs=1e-9)
    best, size_of_grid = brute(planned, target, book.taste, limits, 400_000)
    assert size_of_grid > 40
    assert choice.score <= best + 1e-9


def test_what_a_liquid_settles_to_lies_within_what_the_search_rules_out_by() -> None:
    """Against the densities of solutions that the balance goes by (themselves checked against the tables)."""
    for celsius, brix in itertools.product(range(101), range(86)):
        dry = brix / 100
        room = 1 / solution_density(brix, celsius)
        least, most = ROUGHLY[0][1] if celsius <= ROUGHLY[0][0] else ROUGHLY[1][1]
        rough = 1 - dry + dry * ROUGH_DRY_ML
        assert least * rough <= room <= most * rough, (celsius, brix)
        low, high = ((1 - dry) * WATER_ML[end] + dry * DRY_ML[end] for end in (0, 1))
        assert low <= room <= high, (celsius, brix)
