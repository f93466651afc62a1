"""Taste against hands: the sample is even and repeatable, the figures those of a hand's arithmetic."""

from __future__ import annotations

import random
from collections import Counter
from dataclasses import replace

import pytest

from recipes.asking.combinations import all_lines, count
from recipes.building.resolve import resolve
from recipes.hands import Hands
from recipes.model import Line
from recipes.reading.reader import parse_book
from recipes.tuning.trade_off import PATIENCES, is_fussy, patiences, percentile, reckon, sample
from tests.proof.books import GOOD, bar, iced

OTHER = iced(more="toppings = []").replace("Iced Tea", "Bare Tea")


def test_nearest_rank_percentiles() -> None:
    """The worked example of Wikipedia's "Percentile", nearest-rank method: 15, 20, 35, 40, 50."""
    values = [35.0, 20.0, 50.0, 15.0, 40.0]
    assert [percentile(values, share) for share in (5, 30, 40, 50, 100)] == [15, 20, 20, 35, 50]
    assert percentile([], 95) == 0


def test_lines_are_drawn_from_the_whole_menu_each_as_likely() -> None:
    """Of 72 combinations with toppings and 24 without, three quarters are of the first drink.

    4,000 draws spread by sqrt(4000 x 0.75 x 0.25) = 27; five times that is wide enough to hold for any seed.
    """
    book = bar(iced=GOOD, bare=OTHER)
    assert (count(book, "iced"), count(book, "bare")) == (72, 24)
    lines = sample(book, 4000, random.Random(7).randrange)
    drinks = Counter(line.drink for line in lines)
    assert abs(drinks["iced"] - 3000) < 5 * 27
    everything = {line for drink in book.drinks for line in all_lines(book, drink)}
    assert set(lines) == everything, "96 combinations in 4,000 draws: none is left out"
    assert sample(book, 40, random.Random(7).randrange) == lines[:40], "the same seed, the same lines"


def test_seconds_are_those_of_every_measure_in_the_build() -> None:
    """Two strokes after a reach (1.25 + 2 x 0.94), 120 ml from the jug (14.9), tongs and three cubes."""
    book = bar(iced=GOOD)
    line = Line("iced", "small", 100, "regular")
    point = reckon(book, [line], 8.0)
    assert point.seconds == pytest.approx((1.25 + 2 * 0.94) + 14.9 + (1.8 + 3 * 1.4))
    # The recipe as it is written: nothing is off, nothing fussy.
    assert (point.built, point.refused, point.fussy_pct, point.median_pct, point.p95_pct) == (1, 0, 0, 0, 0)


def test_refused_lines_are_counted_apart() -> None:
    book = bar(iced=GOOD)
    nobody = Line("iced", "small", 33, "regular")
    point = reckon(book, [Line("iced", "small", 100, "regular"), nobody], 8.0)
    assert (point.built, point.refused) == (1, 1)


def test_progress_comes_to_the_number_of_lines() -> None:
    told: list[int] = []
    lines = [Line("iced", "small", 100, "regular")] * 60
    reckon(bar(iced=GOOD), lines, 8.0, told.append)
    assert told == [25, 25, 10]


@pytest.mark.parametrize(
    ("ml", "tool", "fussy"), [("45 ml", "jigger", False), ("43 ml", "jigger", True), ("80 ml", "jug", False)]
)
def test_a_reading_between_marks_is_fussy(ml: str, tool: str, fussy: bool) -> None:
    """A jigger of 60 ml with marks of 5: 45 stands at one, 43 between two; 80 is read once, at the jug."""
    texts = dict(bar(iced=GOOD).files)
    jigger = '[tools.jigger]\nname = "jigger"\nkind = "jigger"\nholds = "60 ml"\nsmallest = "1"\n\n'
    texts["shop.toml"] = texts["shop.toml"].replace("[sizes.small]", f"{jigger}[sizes.small]")
    texts["drinks/iced.toml"] = GOOD.replace('amount = "120 ml"', f'amount = "{ml}"\ntool = "jigger"')
    book = parse_book(texts)
    build = resolve(book, Line("iced", "small", 100, "regular"))
    poured = next(step.amount for step in build.steps if step.ingredient == "cold_tea")
    assert poured is not None
    assert poured.tool == tool
    assert is_fussy(book, build) is fussy


def test_the_books_own_patience_is_among_those_looked_at() -> None:
    book = replace(bar(iced=GOOD), hands=Hands(patience=5.0))
    assert patiences(book) == sorted([*PATIENCES, 5.0])
    assert patiences(bar(iced=GOOD)) == list(PATIENCES), "8 s is the house's"
