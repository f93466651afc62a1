"""Levels that come to the same measure. Expected is arithmetic: the nearest whole stroke, ties up."""

from __future__ import annotations

import pytest

from recipes.book import Book
from recipes.levels import Coincide, coincide, ice_levels, sugar_levels
from recipes.model import Amount
from recipes.reader import parse_book
from tests.proof.books import files, iced

LEVELS = '0 = "no sugar"\n25 = "a little sugar"\n50 = "half sugar"\n75 = "less sugar"\n'
ICES = '[ice.less]\nname = "less ice"\ncubes = "50 %"\n\n[ice.regular]'


def bar_with(strokes: int, cubes: int = 3) -> Book:
    """The small bar with quarters of sugar and less ice, its iced tea by so many strokes and cubes."""
    drink = iced(syrup=f"{strokes} strokes").replace('"none", "regular"', '"none", "less", "regular"')
    texts = files(iced=drink.replace("3 cubes", f"{cubes} cube{'s' if cubes > 1 else ''}"))
    shop = texts["shop.toml"].replace('0 = "no sugar"\n50 = "half sugar"\n', LEVELS)
    return parse_book({**texts, "shop.toml": shop.replace("[ice.regular]", ICES)})


def count(amount: Amount | None) -> float:
    return 0.0 if amount is None else amount.count


@pytest.mark.parametrize(
    ("strokes", "wanted"),
    [
        # 25, 50, 75 and 100 % of three strokes: 0.75 -> 1, 1.5 -> 2, 2.25 -> 2, 3.
        (3, [0, 1, 2, 2, 3]),
        # Of four: 1, 2, 3, 4.
        (4, [0, 1, 2, 3, 4]),
        # Of one: 0.25 -> 0, 0.5 -> 1, 0.75 -> 1, 1.
        (1, [0, 0, 1, 1, 1]),
    ],
)
def test_each_level_is_the_nearest_stroke_ties_up(strokes: int, wanted: list[int]) -> None:
    levels = sugar_levels(bar_with(strokes), "iced", "small")
    assert [level.percent for level, _ in levels] == [0, 25, 50, 75, 100]
    assert [count(amount) for _, amount in levels] == wanted


def test_neighbours_of_one_measure_are_told() -> None:
    told = [each for each in coincide(bar_with(3), "iced", "small") if each.kind == "sugar"]
    assert told == [Coincide("sugar", "small", ("half sugar", "less sugar"), "2 strokes")]
    assert [each for each in coincide(bar_with(4), "iced", "small") if each.kind == "sugar"] == []


def test_three_of_one_measure_are_told_together_and_nothing_is_a_measure() -> None:
    told = [each for each in coincide(bar_with(1), "iced", "small") if each.kind == "sugar"]
    assert [(each.levels, each.measure) for each in told] == [
        (("no sugar", "a little sugar"), "nothing"),
        (("half sugar", "less sugar", "full sugar"), "1 stroke"),
    ]


def test_ice_that_comes_to_the_same_is_told() -> None:
    """Half of one cube is 0.5 -> 1, as much as regular; half of four is two."""
    one, four = bar_with(4, cubes=1), bar_with(4, cubes=4)
    assert [count(amount) for _, amount in ice_levels(one, "iced", "small")] == [0, 1, 1]
    assert coincide(one, "iced", "small") == [Coincide("ice", "small", ("less ice", "regular ice"), "1 cube")]
    assert [count(amount) for _, amount in ice_levels(four, "iced", "small")] == [0, 2, 4]
    assert coincide(four, "iced", "small") == []
