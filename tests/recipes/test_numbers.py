"""Figures that are none, or too great for any number: a fault at their line, wherever they stand."""

from __future__ import annotations

import re

import pytest

from recipes.reading.faults import BookRefused
from recipes.reading.reader import parse_book
from tests.recipes.test_hostile import GOOD, swapped

VALUE = re.compile(r"^([^#\n=]+ = ).+$", re.MULTILINE)
PLACES = [(name, found.start()) for name, text in GOOD.items() for found in VALUE.finditer(text)]
BEYOND = "1e99999999999999999999"
"""More than any number can be, even one of as many figures as the memory holds."""


@pytest.mark.parametrize(
    ("value", "places"),
    [(BEYOND, PLACES), (f"[1, {BEYOND}]", PLACES[::9]), (f"{{ a = {BEYOND} }}", PLACES[::9])],
    ids=["bare", "list", "table"],
)
def test_a_number_beyond_all_numbers_is_a_fault_at_its_line_wherever_it_stands(
    value: str, places: list[tuple[str, int]]
) -> None:
    assert len(PLACES) > 200
    for name, start in places:
        text = GOOD[name]
        put = text[:start] + VALUE.sub(lambda found: found[1] + value, text[start:], count=1)
        with pytest.raises(BookRefused) as refused:
            parse_book({**GOOD, name: put})
        line = text.count("\n", 0, start) + 1
        assert [fault for fault in refused.value.faults if (fault.file, fault.line) == (name, line)], line


@pytest.mark.parametrize(
    "figures",
    [BEYOND, "-" + BEYOND, "1e-99999999999999999999", "1e999999999999999999", "1e-999999999999999999",
     "nan", "-nan", "inf", "-inf", "1_0.0e+99999999999999999999", "0e99999999999999999999", "9" * 990,
     "0b" + "1" * 990, "1979-05-27T07:32:00Z", "9999-12-31", "23:59:59.999999999"],
)  # fmt: skip
def test_a_price_that_is_none_is_told_as_it_is_written(figures: str) -> None:
    with pytest.raises(BookRefused) as refused:
        parse_book(swapped("drinks/it.toml", "small = 3.00", f"small = {figures}"))
    (fault,) = refused.value.faults
    assert (fault.file, fault.key) == ("drinks/it.toml", "prices.small")
    assert "accepted: a price from 0 to 10000 EUR with at most 2 decimals" in fault.message
    if "e" in figures and figures.endswith("99999999999999999999"):
        assert fault.found == figures


def test_nought_is_nought_with_any_exponent() -> None:
    """0 times ten to the power of anything is 0, which is a price."""
    for figures in ("0e9", "-0.0", "0e-999999999", "0e999999999999999999"):
        assert (
            parse_book(swapped("drinks/it.toml", "small = 3.00", f"small = {figures}"))
            .drinks["it"]
            .prices["small"]
            == 0
        )


@pytest.mark.parametrize(
    "amount", ["1e99 ml", f"{'9' * 70} ml", "1/0 ml", "nan ml", "inf scoops", "0x10 ml", "٣ ml"]
)
def test_an_amount_in_quotes_is_a_plain_number(amount: str) -> None:
    with pytest.raises(BookRefused) as refused:
        parse_book(swapped("drinks/it.toml", 'amount = "2 scoops"', f'amount = "{amount}"'))
    assert {fault.key for fault in refused.value.faults} == {"steps.1.amount"}
