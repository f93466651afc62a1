"""Tools: what an amount comes to, and rounding to what a hand can measure."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes.book import Book
from recipes.measures import amount, figure, measured, nearest
from recipes.units import NotAQuantity
from tests.recipes.cases import PANTRY, bar, entry


@given(st.integers(0, 10_000), st.sampled_from([1, 2, 4, 5, 10]))
def test_rounding_is_half_up_as_the_decimal_module_does_it(hundredths: int, parts: int) -> None:
    exact = Decimal(hundredths) / 100 * parts
    expected = exact.quantize(Decimal(1), rounding=ROUND_HALF_UP) / parts
    assert nearest(hundredths / 100, 1 / parts) == pytest.approx(float(expected), abs=1e-12)


def test_a_tie_reached_through_floating_point_still_goes_up() -> None:
    assert nearest(0.1 * 3 * 5, 1) == 2  # 1.5, but 0.1 * 3 is not 0.3


@pytest.mark.parametrize(
    ("text", "tool", "millilitres"),
    [
        ("2 scoops", "scoop", 36),
        ("1/2 scoop", "scoop", 9),
        ("1 1/2 scoops", "scoop", 27),
        ("2 strokes", "pump", 14),  # common practice: one stroke 7 ml
        ("14 ml", "jug", 14),
        ("1 fl oz", "jug", 29.5735295625),  # NIST Handbook 44
        ("1 shot", "shot", 40),  # common practice
        ("7 cubes", "cube", 189),
        ("18 g", "jug", 36),  # at 0.5 g/ml
        ("1 oz", "jug", 56.69904625),  # 28.349523125 g at 0.5 g/ml
    ],
)
def test_an_amount_as_written_is_a_tool_and_millilitres(
    powder_bar: Book, text: str, tool: str, millilitres: float
) -> None:
    found = measured(text, powder_bar.tools, None, density=0.5)
    assert found.tool == tool
    assert found.ml == pytest.approx(millilitres, rel=1e-12)


def test_a_named_tool_measures_millilitres(powder_bar: Book) -> None:
    assert measured("14 ml", powder_bar.tools, "pump", 1.37).tool == "pump"


def test_a_measure_the_bar_has_not_is_refused_with_those_it_has(powder_bar: Book) -> None:
    with pytest.raises(NotAQuantity, match="'handfuls' is not a measure of this bar: scoops, strokes, ml"):
        measured("2 handfuls", powder_bar.tools, None, 1)


def test_a_pump_of_60_brix_syrup_weighs_what_the_tables_say() -> None:
    """ICUMSA density of 60 °Bx sucrose at 20 °C, 1286.61 kg/m3: 7 ml is 9.006 g with 5.404 g sugar."""
    syrup = entry("fructose", "Syrup", "syrup", "1.28661", sugars="60 %", dry="60 %")
    others = [block for block in PANTRY.split("\n\n") if "[fructose]" not in block]
    book = bar(pantry="\n\n".join([syrup, *others]))
    found = amount(book.tools["pump"], book.pantry["fructose"], 7)
    assert found.mass_g == pytest.approx(9.006, rel=0.003)
    assert found.mass_g * book.pantry["fructose"].sugars == pytest.approx(5.404, rel=0.003)


def test_what_rounding_leaves_over_is_told_in_per_cent(powder_bar: Book) -> None:
    found = amount(powder_bar.tools["scoop"], powder_bar.pantry["powder"], 18 * 1.6)
    assert (found.count, found.volume_ml, found.mass_g) == (1.5, 27.0, 13.5)
    assert found.error_pct == pytest.approx(float(100 * (Fraction("1.5") / Fraction("1.6") - 1)))


@pytest.mark.parametrize(
    ("count", "words"),
    [
        (0.5, "½"),
        (1, "1"),
        (1.5, "1½"),
        (2.25, "2¼"),
        (120, "120"),
        (2.5, "2½"),
        (0.1, "0.1"),
        (1 / 3, "⅓"),
        (2 / 3, "⅔"),
        (5 / 3, "1⅔"),
        (0.666667, "⅔"),
        (3 * (1 / 3), "1"),
        (0.33, "0.33"),
    ],
)
def test_counts_are_written_for_people(count: float, words: str) -> None:
    assert figure(count) == words
