"""Units of the world outside the bar, and how a quantity is written.

A quantity is a number, a space and a unit: ``14 ml``, ``1/2 cup``, ``1 1/2 tsp``, ``0.5 oz``, ``85 °C``,
``30 s``. A range is two numbers: ``30 to 60 s``. Numbers are plain decimals, fractions (1/2 or ½), or both;
neither signs, exponents nor thousands marks are accepted, so a slip of the finger is a fault, not a big
number.

Factors are exact: NIST Handbook 44, Appendix C (US fluid and avoirdupois units).
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction

VOLUME_ML: Mapping[str, Fraction] = {
    "ml": Fraction(1),
    "cl": Fraction(10),
    "l": Fraction(1000),
    "tsp": Fraction("4.92892159375"),
    "tbsp": Fraction("14.78676478125"),
    "fl oz": Fraction("29.5735295625"),
    "cup": Fraction("236.5882365"),
}
"""Millilitres in each unit of volume; tsp, tbsp, fl oz and cup are the US measures."""

MASS_G: Mapping[str, Fraction] = {
    "g": Fraction(1),
    "kg": Fraction(1000),
    "oz": Fraction("28.349523125"),
    "lb": Fraction("453.59237"),
}
"""Grams in each unit of mass (avoirdupois)."""

TIME_S: Mapping[str, Fraction] = {"s": Fraction(1), "min": Fraction(60), "h": Fraction(3600)}
"""Seconds in each unit of time."""

SIGNS: Mapping[str, str] = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅓": "1/3", "⅔": "2/3"}
"""Signs of fractions that may be written, and how they are spelt out."""

_NUMBER = r"(?:[0-9]{1,7} )?[0-9]{1,7}/[0-9]{1,7}|[0-9]{1,9}(?:\.[0-9]{1,15})?"
_QUANTITY = re.compile(rf"({_NUMBER}) ?([^0-9.].*)")
_RANGE = re.compile(rf"({_NUMBER}) to ({_NUMBER}) ?([^0-9.].*)")


class NotAQuantity(ValueError):
    """Raised for text that is no quantity; says what was expected."""


def number(text: str) -> Fraction:
    """``"2"``, ``"0.5"``, ``"1/2"`` or ``"1 1/2"`` as an exact number. Raises ``NotAQuantity``."""
    text = plain(text)
    if not re.fullmatch(_NUMBER, text):
        raise NotAQuantity(f"{text!r} is not a number such as 2, 0.5, 1/2 or 1 1/2")
    try:
        return sum((Fraction(part) for part in text.split(" ")), Fraction(0))
    except ZeroDivisionError:
        raise NotAQuantity(f"{text!r} divides by zero") from None


def plain(text: str) -> str:
    """``"1½ scoops"`` as ``"1 1/2 scoops"``: signs of fractions spelt out."""
    for sign, spelt in SIGNS.items():
        text = re.sub(rf"(?<=[0-9]) ?{sign}", f" {spelt}", text).replace(sign, spelt)
    return text


def quantity(text: str) -> tuple[Fraction, str]:
    """A number and the unit behind it, the unit as written. Raises ``NotAQuantity``."""
    found = _QUANTITY.fullmatch(plain(text.strip()))
    if found is None:
        raise NotAQuantity(f'{text!r} is not a number and a unit, such as "14 ml"')
    return number(found[1]), found[2].strip()


def in_unit(text: str, factors: Mapping[str, Fraction]) -> Fraction:
    """A quantity in the base unit of ``factors``. Raises ``NotAQuantity`` naming the units accepted."""
    amount, unit = quantity(text)
    if unit not in factors:
        raise NotAQuantity(f"{unit!r} is not one of the units {', '.join(factors)}")
    return amount * factors[unit]


def seconds_range(text: str) -> tuple[Fraction, Fraction]:
    """``"30 to 60 s"`` or ``"20 s"`` in seconds, low and high. Raises ``NotAQuantity``."""
    found = _RANGE.fullmatch(text.strip())
    if found is None:
        length = in_unit(text, TIME_S)
        return length, length
    if found[3] not in TIME_S:
        raise NotAQuantity(f"{found[3]!r} is not one of the units {', '.join(TIME_S)}")
    low, high = number(found[1]) * TIME_S[found[3]], number(found[2]) * TIME_S[found[3]]
    if low > high:
        raise NotAQuantity(f"{text!r} starts above its end")
    return low, high
