"""Currencies: how many decimals an amount of money has, and how high a price may be before it must be a slip.

Codes and minor units are those of ISO 4217:2015, list one, as its maintenance agency published it on
2026-01-01 (the agency's table "Current currency & funds code list"). Codes without a minor unit, such as
those of gold or of the tests, are no money to pay with and left out. A change of the list is a change here.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

_BY_DIGITS: Mapping[int, str] = {
    0: "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF",
    2: """AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BMD BND BOB BOV BRL BSD BTN BWP BYN BZD CAD CDF CHE
        CHF CHW CNY COP COU CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD
        HKD HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK
        MNT MOP MRU MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD
        RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD TWD TZS UAH
        USD USN UYU UZS VED VES WST XAD XCD XCG YER ZAR ZMW ZWG""",
    3: "BHD IQD JOD KWD LYD OMR TND",
    4: "CLF UYW",
}

_SMALL = """ALL AMD AOA ARS CDF COP CRC CUP DZD HUF IDR IQD IRR JMD KES KHR KPW KZT LAK LBP LKR LRD MGA MMK
    MNT MWK NGN PKR RSD SDG SOS SSP SYP TZS UZS VED VES YER"""
"""Currencies with a minor unit on paper of which a cup costs hundreds or more (common knowledge, 2026)."""


@dataclass(frozen=True, slots=True)
class Currency:
    """A currency: its ISO 4217 ``code`` and ``digits`` of its minor unit; limits in whole units.

    ``most`` is the highest price of one thing on a menu, ``most_cost`` of a kilogram or litre of an
    ingredient; ``example`` is what a kilogram may cost, as written. Beyond is a slip of the finger: a cup
    costs some tens of units in most currencies, hundreds of thousands in the smallest.
    """

    code: str
    digits: int
    most: int
    most_cost: int
    example: str

    @property
    def decimals(self) -> str:
        """How many decimals a price may have, in words."""
        return {0: "without decimals", 1: "with at most 1 decimal"}.get(
            self.digits, f"with at most {self.digits} decimals"
        )


def _currency(code: str, digits: int) -> Currency:
    if digits == 0 or code in _SMALL.split():
        return Currency(code, digits, 10_000_000, 100_000_000, "9500")
    return Currency(code, digits, 10_000, 100_000, "9.50")


CURRENCIES: Mapping[str, Currency] = {
    code: _currency(code, digits)
    for code, digits in sorted(
        (code, digits) for digits, codes in _BY_DIGITS.items() for code in codes.split()
    )
}
"""Every currency by its code, in the order of the alphabet."""
