"""Money by currency, against the table of ISO's maintenance agency as the iso4217 package carries it."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction

import iso4217
import pytest

from recipes.book import Book
from recipes.reading.currencies import CURRENCIES
from recipes.reading.faults import BookRefused, Fault
from recipes.reading.reader import parse_book
from service.money.totals import plain
from tests.recipes.cases import bar, files

PUBLISHED = {each.code: each.exponent for each in iso4217.Currency if each.exponent is not None}
"""Minor units by code, list one; without those for which the list has none (gold, drawing rights, tests)."""


def test_every_code_of_iso_4217_is_known_with_its_minor_units() -> None:
    assert {code: each.digits for code, each in CURRENCIES.items()} == PUBLISHED
    assert {0, 2, 3, 4} == set(PUBLISHED.values())


MONEY = re.compile(r"^((?:half_)?price|small|medium|large) = [0-9.]+$", re.MULTILINE)


def in_currency(code: str, price: str, cost: str) -> dict[str, str]:
    """The small bar's files with all prices and costs in another currency."""
    book = files()
    book["shop.toml"] = book["shop.toml"].replace('currency = "EUR"', f'currency = "{code}"')
    book["pantry.toml"] = book["pantry.toml"].replace("1 EUR/kg", f"{cost} {code}/kg")
    for name in ("extras.toml", "drinks/it.toml"):
        book[name] = MONEY.sub(lambda found: f"{found[1]} = {price}", book[name])
    return book


def faults_of(book: dict[str, str]) -> tuple[Fault, ...]:
    with pytest.raises(BookRefused) as refused:
        parse_book(book)
    return refused.value.faults


SHOPS = [
    ("VND", "35000", 35_000, "1700000", 1_700_000),  # dong have no minor unit
    ("JPY", "650", 650, "11000", 11_000),
    ("KRW", "4500", 4_500, "95000", 95_000),
    ("IDR", "28000", 2_800_000, "1100000", 110_000_000),  # a hundred sen a rupiah, on paper
    ("IRR", "1500000.00", 150_000_000, "70000000", 7_000_000_000),
    ("LBP", "350000", 35_000_000, "6000000", 600_000_000),
    ("KWD", "1.750", 1_750, "21.500", 21_500),  # a thousand fils a dinar
    ("IQD", "5000", 5_000_000, "90000", 90_000_000),
    ("USD", "5.25", 525, "74", 7_400),
    ("CLF", "0.1234", 1_234, "2.5", 25_000),  # an accounting unit of four digits
]


@pytest.mark.parametrize(("code", "price", "minor", "cost", "cost_minor"), SHOPS)
def test_a_shop_anywhere_can_price_a_drink(
    code: str, price: str, minor: int, cost: str, cost_minor: int
) -> None:
    """Minor units by hand: the price times ten to the power of the currency's digits."""
    book: Book = parse_book(in_currency(code, price, cost))
    assert (book.shop.currency, book.shop.minor_digits) == (code, PUBLISHED[code])
    assert book.drinks["it"].prices["medium"] == book.shot.price == book.milks["oat"].price == minor
    assert book.pantry["powder"].price_per_kg == pytest.approx(cost_minor, rel=1e-12)


SLIPS = [
    ("EUR", "10000.01", "from 0 to 10000 EUR with at most 2 decimals"),
    ("EUR", "4.805", "from 0 to 10000 EUR with at most 2 decimals"),
    ("JPY", "650.5", "from 0 to 10000000 JPY without decimals"),
    ("VND", "10000001", "from 0 to 10000000 VND without decimals"),
    ("KWD", "1.7505", "from 0 to 10000 KWD with at most 3 decimals"),
    ("IDR", "28000.005", "from 0 to 10000000 IDR with at most 2 decimals"),
]


@pytest.mark.parametrize(("code", "price", "words"), SLIPS)
def test_a_price_beyond_its_currency_is_refused_with_the_limit(code: str, price: str, words: str) -> None:
    book = in_currency(code, "1", "1")
    book["drinks/it.toml"] = book["drinks/it.toml"].replace("large = 1", f"large = {price}")
    (fault,) = faults_of(book)
    assert (fault.key, fault.found) == ("prices.large", price)
    assert words in fault.message


@pytest.mark.parametrize(
    ("code", "cost", "words"),
    [
        ("EUR", "100000.01 EUR/kg", "at most 100000 EUR a kilogram or litre"),
        ("EUR", "101 EUR/g", "at most 100000 EUR a kilogram or litre"),
        ("EUR", "1001 EUR/cl", '"9.50 EUR/kg"'),
        ("JPY", "100000001 JPY/kg", 'text such as "9500 JPY/kg" or "9500 JPY/l", at most 100000000 JPY'),
    ],
)
def test_a_cost_beyond_its_currency_is_refused_with_the_limit(code: str, cost: str, words: str) -> None:
    book = in_currency(code, "1", "1")
    book["pantry.toml"] = book["pantry.toml"].replace(f'"1 {code}/kg"', f'"{cost}"', 1)
    (fault,) = faults_of(book)
    assert (fault.file, fault.key) == ("pantry.toml", "powder.price")
    assert words in fault.message


@pytest.mark.parametrize(
    ("cost", "per_kg"), [("100000 EUR/kg", 10_000_000), ("100 EUR/g", 10_000_000), ("1 EUR/g", 100_000)]
)
def test_a_cost_up_to_its_limit_is_read_in_any_unit(cost: str, per_kg: float) -> None:
    book = in_currency("EUR", "1", "1")
    book["pantry.toml"] = book["pantry.toml"].replace('"1 EUR/kg"', f'"{cost}"', 1)
    assert parse_book(book).pantry["powder"].price_per_kg == pytest.approx(per_kg, rel=1e-12)


RATES = [
    "10",
    "0",
    "8.25",
    "8.875",
    "33.333333",
    "0.000000000000001",
    "12.345678901234567"[:16],
    "100",
    "7.70",
]


@pytest.mark.parametrize("rate", RATES)
def test_a_rate_of_tax_is_kept_to_the_last_figure(rate: str) -> None:
    shop = files()["shop.toml"].replace('percent = "10 %"', f'percent = "{rate} %"')
    percent = bar(shop=shop).tax.percent
    assert Fraction(Decimal(percent)) == Fraction(rate)
    assert Fraction(plain(Decimal(percent))) == Fraction(rate)


@pytest.mark.parametrize(("rate", "percent"), [("8 1/4 %", "8.25"), ("1/8 %", "0.125")])
def test_a_rate_written_as_a_fraction_is_told_in_decimals(rate: str, percent: str) -> None:
    shop = files()["shop.toml"].replace('percent = "10 %"', f'percent = "{rate}"')
    assert bar(shop=shop).tax.percent == percent


def test_a_rate_that_has_no_decimals_is_refused() -> None:
    shop = files()["shop.toml"].replace('percent = "10 %"', 'percent = "33 1/3 %"')
    (fault,) = faults_of(files(shop=shop))
    assert fault.key == "tax.percent"
    assert 'a decimal such as "8.25 %"' in fault.message
