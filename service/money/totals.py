"""Money: whole minor units of one currency, tax by rule, rounded half up.

No floating point anywhere: a rate is a Decimal, a share of it an exact quotient of integers.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal


@dataclass(frozen=True, slots=True)
class TaxRule:
    """A tax of ``percent``, contained in the prices or added on top of them.

    ``rounded`` says where the half cents go: once per order, or on every line of it (the lawful
    choice of the seller in many places, for example Australia's GST Act 1999, s 9-90).
    """

    name: str
    percent: Decimal
    included: bool
    rounded: Literal["order", "line"]


@dataclass(frozen=True, slots=True)
class Totals:
    """What an order comes to, in minor units; ``net + tax == gross`` always."""

    currency: str
    net: int
    tax: int
    gross: int
    tax_name: str
    tax_percent: str
    tax_included: bool
    tax_rounded: Literal["order", "line"]


def half_up(numerator: int, denominator: int) -> int:
    """The whole number nearest to a quotient, halves away from zero; ``denominator`` above 0."""
    sign = -1 if numerator < 0 else 1
    return sign * ((2 * abs(numerator) + denominator) // (2 * denominator))


def tax_of(amount: int, rule: TaxRule) -> int:
    """The tax in (or on) an amount of minor units, rounded half up."""
    part, whole = rule.percent.as_integer_ratio()
    base = 100 * whole
    return half_up(amount * part, base + part if rule.included else base)


def totals(amounts: Sequence[int], rule: TaxRule, currency: str) -> Totals:
    """Add up the lines of an order, in minor units as priced in the book."""
    listed = sum(amounts)
    tax = tax_of(listed, rule) if rule.rounded == "order" else sum(tax_of(each, rule) for each in amounts)
    net = listed - tax if rule.included else listed
    return Totals(currency, net, tax, net + tax, rule.name, plain(rule.percent), rule.included, rule.rounded)


def plain(percent: Decimal) -> str:
    """A percentage as people write it: "10", "8.1"."""
    return f"{percent.normalize():f}"


def rule_of(told: Totals) -> TaxRule:
    """The tax rule by which an order was charged."""
    return TaxRule(told.tax_name, Decimal(told.tax_percent), told.tax_included, told.tax_rounded)
