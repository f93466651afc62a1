"""What neighbours are held to, by two measures written by hand, on either side of each slack."""

from __future__ import annotations

from dataclasses import replace

import pytest

from recipes.asking.combinations import all_lines
from recipes.building.resolve import resolve, resolved
from recipes.proof.checks import Measure, less_sweet, measure_of, smaller, sweet_step_g, weaker_or_smaller
from tests.proof.books import GOOD, bar

LESS = Measure(brix=10.0, half_step_bx=0.5, temperature_c=5.0, caffeine_mg=60.0, ice_g=100.0, filled_ml=300.0)


def test_more_shots_may_stand_lower_by_a_sip_and_a_step_of_the_room() -> None:
    """10 ml of water not worth pouring, 7.5 ml of a step of the room and 2 ml of warming are 19.5 ml."""
    assert smaller(LESS, LESS._replace(filled_ml=280.6)) is None
    words = smaller(LESS, LESS._replace(filled_ml=280.4))
    assert words == "280 ml in the cup with more shots, 300 ml with fewer"
    assert weaker_or_smaller(LESS, LESS._replace(filled_ml=280.4)) == words
    assert smaller(LESS, LESS._replace(filled_ml=340.0)) is None


def test_more_sugar_may_be_less_sweet_by_half_a_step_of_its_tool() -> None:
    """Half a step is 0.5 °Bx here, and 0.15 °Bx are rounding: 10 - 0.65 = 9.35."""
    assert less_sweet(LESS, LESS._replace(brix=9.36)) is None
    assert less_sweet(LESS, LESS._replace(brix=9.34)) == "9.3 °Bx with more sugar, 10.0 °Bx with less"


def test_the_wider_of_two_half_steps_counts() -> None:
    """0.2 + 0.15 would let pass 9.65; the other's 0.8 + 0.15 lets pass 9.05."""
    narrow = LESS._replace(half_step_bx=0.2)
    assert less_sweet(narrow, narrow._replace(brix=9.64)) is not None
    assert less_sweet(narrow, narrow._replace(brix=9.06, half_step_bx=0.8)) is None
    assert less_sweet(narrow, narrow._replace(brix=9.04, half_step_bx=0.8)) is not None


def test_a_step_is_a_stroke_of_syrup_in_what_is_liquid() -> None:
    """7 ml of 1.30 g/ml at 60 % are 5.46 g of sugar, half of it 2.73 g. Without ice 18.2 g of syrup and 120 g
    of tea are 138.2 g of liquid: 1.975 °Bx."""
    book = bar(iced=GOOD)
    assert abs(sweet_step_g(book, "iced") - 5.46) < 1e-9
    line = replace(book.drinks["iced"].default, ice="none")
    measure = measure_of(resolved(book, line), sweet_step_g(book, "iced"))
    assert abs(measure.half_step_bx - 100 * 2.73 / 138.2) < 1e-3


def test_what_is_compared_is_what_the_balance_tells() -> None:
    book = bar(iced=GOOD)
    for line in all_lines(book, "iced"):
        measure, build = measure_of(resolved(book, line), 5.46), resolve(book, line)
        told = build.balance
        assert measure.brix == pytest.approx(told.added_brix, abs=1e-4)
        assert measure.temperature_c == pytest.approx(told.temperature_c, abs=1e-4)
        assert measure.caffeine_mg == pytest.approx(told.caffeine_mg, abs=1e-4)
        assert measure.ice_g == pytest.approx(told.ice_g, abs=1e-4)
        assert measure.filled_ml == pytest.approx(build.fill.filled_ml, abs=1e-4)
