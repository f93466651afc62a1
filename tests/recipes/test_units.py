"""Units and quantities against NIST Handbook 44 (Appendix C) and the pint library."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from recipes.units import MASS_G, TIME_S, VOLUME_ML, NotAQuantity, in_unit, number, quantity, seconds_range

PINT = {
    "ml": "ml", "cl": "cl", "l": "l", "tsp": "teaspoon", "tbsp": "tablespoon", "fl oz": "fluid_ounce",
    "cup": "cup", "g": "g", "kg": "kg", "oz": "oz", "lb": "lb", "s": "s", "min": "min", "h": "h",
}  # fmt: skip


@pytest.mark.parametrize(
    ("factors", "base"), [(VOLUME_ML, "ml"), (MASS_G, "g"), (TIME_S, "s")], ids=["volume", "mass", "time"]
)
def test_every_factor_is_that_of_pint(factors: dict[str, Fraction], base: str) -> None:
    registry: Any = pint.UnitRegistry(non_int_type=Fraction)
    for unit, factor in factors.items():
        assert registry.Quantity(Fraction(1), PINT[unit]).to(base).magnitude == factor, unit


@pytest.mark.parametrize(
    ("unit", "millilitres"),
    [
        ("fl oz", "29.5735295625"),
        ("tbsp", "14.78676478125"),
        ("tsp", "4.92892159375"),
        ("cup", "236.5882365"),
    ],
)
def test_volumes_are_exactly_those_of_nist_handbook_44(unit: str, millilitres: str) -> None:
    assert in_unit(f"1 {unit}", VOLUME_ML) == Fraction(millilitres)


def test_masses_are_exactly_those_of_nist_handbook_44() -> None:
    assert in_unit("1 oz", MASS_G) == Fraction("28.349523125")
    assert in_unit("1 lb", MASS_G) == Fraction("453.59237")


@pytest.mark.parametrize(
    ("text", "value"),
    [("2", Fraction(2)), ("0.5", Fraction(1, 2)), ("3/4", Fraction(3, 4)), ("1 1/2", Fraction(3, 2))],
)
def test_numbers_are_decimals_or_fractions(text: str, value: Fraction) -> None:
    assert number(text) == value


@pytest.mark.parametrize(
    "text", ["", "-2", "+2", "1e3", "nan", "inf", "1,5", "1/0", "1 1", "٣", "0x10", "9" * 99]
)
def test_what_is_no_plain_number_is_refused(text: str) -> None:
    with pytest.raises(NotAQuantity):
        number(text)


def test_a_unit_that_is_not_known_is_named_with_those_that_are() -> None:
    with pytest.raises(NotAQuantity, match=r"'gallons' is not one of the units ml, cl, l, tsp"):
        in_unit("2 gallons", VOLUME_ML)


def test_a_range_is_two_times() -> None:
    assert seconds_range("30 to 60 s") == (Fraction(30), Fraction(60))
    assert seconds_range("2 to 3 min") == (Fraction(120), Fraction(180))
    assert seconds_range("20 s") == (Fraction(20), Fraction(20))


@pytest.mark.parametrize("text", ["60 to 30 s", "30 to 60 kg", "30 to s", "soon"])
def test_what_is_no_range_is_refused(text: str) -> None:
    with pytest.raises(NotAQuantity):
        seconds_range(text)


@given(st.integers(0, 9999), st.integers(1, 99), st.integers(1, 99))
def test_a_mixed_number_is_its_parts(whole: int, over: int, under: int) -> None:
    assert quantity(f"{whole} {over}/{under} ml") == (whole + Fraction(over, under), "ml")
