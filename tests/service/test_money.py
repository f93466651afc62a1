"""Money against published examples of tax in and on a price."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.money.due import Cup, due
from service.money.totals import TaxRule, half_up, rule_of, tax_of, totals


def rule(percent: str, included: bool, rounded: Literal["order", "line"] = "order") -> TaxRule:
    return TaxRule("tax", Decimal(percent), included, rounded)


def test_tax_on_top_of_the_sum_is_rounded_once() -> None:
    """1.83 + 2.86 with 5 % tax is 4.9245, charged as 4.92 (Canada, Economic Action Plan 2012)."""
    found = totals([183, 286], rule("5", included=False), "CAD")
    assert (found.net, found.tax, found.gross) == (469, 23, 492)


def test_tax_inside_prices_may_be_rounded_per_line_or_per_order() -> None:
    """5.20 and 6.30 with 10 % GST inside: 0.47 + 0.57 by line, 11.50 / 11 = 1.05 by invoice.

    A New Tax System (Goods and Services Tax) Act 1999 (Australia), s 9-90.
    """
    by_line = totals([520, 630], rule("10", included=True, rounded="line"), "AUD")
    by_order = totals([520, 630], rule("10", included=True), "AUD")
    assert (by_line.tax, by_line.net, by_line.gross) == (104, 1046, 1150)
    assert (by_order.tax, by_order.net, by_order.gross) == (105, 1045, 1150)


def test_half_a_penny_goes_up() -> None:
    """4.95 with 20 % VAT inside holds 0.825, rounded to 0.83 (HMRC, VAT Notice 700, 17.5)."""
    assert tax_of(495, rule("20", included=True)) == 83


@pytest.mark.parametrize(
    ("net", "percent", "tax"),
    [(18323, "6", 1099), (4637, "21", 974)],
)
def test_tax_by_rate_group(net: int, percent: str, tax: int) -> None:
    """The two rate groups of EN 16931 example 1 (CEN/TC 434): 10.9938 is 10.99, 9.7377 is 9.74."""
    assert tax_of(net, rule(percent, included=False)) == tax


def test_the_groups_of_that_example_add_up_to_what_is_due() -> None:
    """EN 16931 example 1: nets 183.23 and 46.37, VAT 20.73, total 250.33."""
    groups = [
        totals([18323], rule("6", included=False), "EUR"),
        totals([4637], rule("21", included=False), "EUR"),
    ]
    assert sum(group.tax for group in groups) == 2073
    assert sum(group.gross for group in groups) == 25033


@given(
    st.lists(st.integers(0, 10**7), max_size=30),
    st.decimals(0, 40, places=2),
    st.booleans(),
    st.sampled_from(["order", "line"]),
)
def test_net_and_tax_make_gross_and_tax_is_within_half_a_unit_a_rounding(
    amounts: list[int], percent: Decimal, included: bool, rounded: Literal["order", "line"]
) -> None:
    found = totals(amounts, TaxRule("tax", percent, included, rounded), "EUR")
    assert found.net + found.tax == found.gross
    assert (found.gross if included else found.net) == sum(amounts)
    rate = Fraction(percent) / 100
    exact = sum(amounts) * (rate / (1 + rate) if included else rate)
    roundings = 1 if rounded == "order" else len(amounts)
    assert abs(found.tax - exact) <= Fraction(roundings, 2)


@given(st.integers(-(10**9), 10**9), st.integers(1, 10**6))
def test_half_up_agrees_with_decimals(numerator: int, denominator: int) -> None:
    from decimal import ROUND_HALF_UP, localcontext

    with localcontext() as context:
        context.prec = 60
        expected = (Decimal(numerator) / denominator).quantize(Decimal(1), ROUND_HALF_UP)
    assert half_up(numerator, denominator) == int(expected)


def test_an_order_tells_the_rule_it_was_charged_by() -> None:
    told = rule("8.1", included=False, rounded="line")
    assert rule_of(totals([100], told, "CHF")) == told


def cups(*lines: tuple[int, str]) -> list[Cup]:
    """Cups of lines, each given as its price and a sign a cup: "-" void, "+" standing."""
    return [Cup(n, unit, sign == "+") for n, (unit, signs) in enumerate(lines) for sign in signs]


def test_what_is_due_leaves_out_what_was_voided() -> None:
    """Two of 4.80 and one of 5.20 with the tax inside, of which one of 4.80 is void: 10.00 by addition."""
    told = totals([960, 520], rule("10", included=True), "EUR")
    assert due(cups((480, "+-"), (520, "+")), told) == 1000
    assert due(cups((480, "++"), (520, "+")), told) == told.gross
    assert due(cups((480, "--"), (520, "-")), told) == 0


def test_what_is_due_is_rounded_as_the_order_was() -> None:
    """On top, by order: 1.83 + 2.86 at 5 % is 4.92 (Canada, Economic Action Plan 2012), one more is voided.

    By line: 5 % of 1.83 is 0.0915, of 2.86 is 0.143; half up that is 0.09 + 0.14, so 4.92 too; and of two
    lines of 0.10 each 0.005, half up 0.01 a line but 0.01 on both together.
    """
    by_order = totals([183, 286, 999], rule("5", included=False), "CAD")
    assert due(cups((183, "+"), (286, "+"), (999, "-")), by_order) == 492
    for rounded, expected in (("order", 21), ("line", 22)):
        told = totals([10, 10, 999], rule("5", False, "line" if rounded == "line" else "order"), "CAD")
        assert due(cups((10, "+"), (10, "+"), (999, "-")), told) == expected


def test_a_cup_that_costs_another_price_by_now_is_a_line_of_its_own() -> None:
    """Three of 0.10 with 5 % on top, tax by line: 0.30 bears 0.015, half up 0.02. One of them is 0.30 by now:
    0.20 bears 0.01 and 0.30 bears 0.015, half up 0.02, so 0.53 in all.
    At the price it had, it is no line of its own: 3 lines of 0.10 would bear 0.01 each and come to 0.33.
    """
    told = totals([30], rule("5", included=False, rounded="line"), "CAD")
    assert told.gross == 32
    same, dearer = Cup(0, 10, True), Cup(0, 30, True)
    assert due([same, same, same], told) == 32
    assert due([same, dearer, same], told) == 53
    assert due([same, Cup(0, 30, False), same], told) == 21


def test_the_percentage_is_written_as_people_do() -> None:
    assert totals([100], rule("10.00", included=True), "EUR").tax_percent == "10"
    assert totals([100], rule("8.10", included=True), "EUR").tax_percent == "8.1"
