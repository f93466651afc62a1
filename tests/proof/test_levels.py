"""Levels that come to the same measure. Expected is arithmetic: the nearest whole stroke, ties up."""

from __future__ import annotations

from pathlib import Path

import pytest

from recipes.book import Book
from recipes.model import Amount
from recipes.proof.advice import advice
from recipes.proof.levels import Coincide, coincide, ice_levels, sugar_levels
from recipes.proof.prove import prove_drink
from recipes.reading.reader import parse_book
from service.cli.main import main
from tests.proof.books import files, iced, write

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
    assert told == [Coincide("sugar", "small", ("50", "75"), ("half sugar", "less sugar"), "2 strokes")]
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
    assert coincide(one, "iced", "small") == [
        Coincide("ice", "small", ("less", "regular"), ("less ice", "regular ice"), "1 cube")
    ]
    assert [count(amount) for _, amount in ice_levels(four, "iced", "small")] == [0, 2, 4]
    assert coincide(four, "iced", "small") == []


def test_check_warns_and_the_book_is_good_all_the_same(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Three strokes in the small cup are six in the large: 1.5 -> 2, 3, 4.5 -> 5 and 6 there."""
    folder = write(tmp_path, bar_with(3).files)
    assert main(["check", str(folder)]) == 0
    good, *warnings = capsys.readouterr().out.splitlines()
    assert "good" in good
    said = "half sugar and less sugar come to the same in Iced Tea (Small: 2 strokes)"
    assert [line for line in warnings if "sugar" in line] == [f"warning: {said}"]


def test_the_proof_advises_it() -> None:
    book = bar_with(3)
    proof = prove_drink(book, "iced")
    assert [each for each in proof.same if each.kind == "sugar"] == [
        Coincide("sugar", "small", ("50", "75"), ("half sugar", "less sugar"), "2 strokes")
    ]
    (text,) = [each.text for each in advice(book, [proof]) if "alf sugar and less sugar" in each.text]
    assert "finer measure" in text


def test_levels_that_are_told_apart_are_not_warned_of(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Four strokes and four cubes, and twice as many: a quarter and a half of either is whole."""
    folder = write(tmp_path, bar_with(4, cubes=4).files)
    assert main(["check", str(folder)]) == 0
    assert "warning" not in capsys.readouterr().out
