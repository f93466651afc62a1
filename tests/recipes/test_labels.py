"""Energy by the labels' factors, and figures rounded by the labels' rules."""

from __future__ import annotations

from dataclasses import replace

import pytest

from recipes.balance.energy import Factors, energy
from recipes.balance.labels import energy_words, grams_words, us_calories
from recipes.book import Book
from recipes.building.resolve import resolve
from recipes.reading.reader import parse_book
from tests.recipes.cases import files

# carbohydrate, protein, fat, fibre g/100 g; then kJ and kcal by Regulation (EU) 1169/2011 Annex XIV
EU_FOODS = [
    ((4.80, 3.15, 3.25, 0), 255.4, 61.05),  # whole milk, SR28 01077
    ((54.40, 7.91, 8.70, 0), None, 327.5),  # sweetened condensed milk, SR28 01095
    ((59.29, 2.48, 32.92, 0), None, 543),  # powdered creamer, SR28 01069
    ((12.2, 1.3, 0.8, 0), 259.1, None),  # oat drink, Norwegian Food Composition Table 13.123
]


@pytest.mark.parametrize(("grams", "kilojoules", "kilocalories"), EU_FOODS)
def test_eu_energy(grams: tuple[float, ...], kilojoules: float | None, kilocalories: float | None) -> None:
    kj, kcal = energy("EU", *grams)
    assert kilojoules is None or kj == pytest.approx(kilojoules, abs=0.2)
    assert kilocalories is None or kcal == pytest.approx(kilocalories, rel=1e-3)


def test_us_energy_counts_fibre_as_carbohydrate() -> None:
    """General Atwater factors 4, 4 and 9 kcal/g (Merrill and Watt, Agriculture Handbook 74, 1973)."""
    kj, kcal = energy("US", 10, 5, 2, 3)
    assert kcal == 4 * 13 + 4 * 5 + 9 * 2
    assert kj == pytest.approx(4.184 * kcal)
    assert energy("EU", 10, 5, 2, 3) == (17 * 15 + 37 * 2 + 8 * 3, 4 * 15 + 9 * 2 + 2 * 3)


# per 100 g: carbohydrate without fibre, protein, fat, fibre; then kcal by each food's own Atwater factors
SR28_FOODS = [
    ((10.04, 6.81, 7.56, 0), 134),  # evaporated milk, SR28 01096
    ((88.69 - 0.9, 0.19, 0.02, 0.9), 358),  # dry tapioca pearls, SR28 20068: 88.69 with its fibre
]


@pytest.mark.parametrize(("grams", "kilocalories"), SR28_FOODS)
@pytest.mark.parametrize("factors", ["EU", "US"])
def test_energy_by_either_factors_is_near_that_of_the_food_itself(
    factors: Factors, grams: tuple[float, ...], kilocalories: float
) -> None:
    """SR28 has factors for each food, a label has the same for all: within 3 %."""
    _, kcal = energy(factors, *grams)
    assert kcal == pytest.approx(kilocalories, rel=0.03)


@pytest.mark.parametrize(
    ("kilocalories", "told"), [(4.9, 0), (47, 45), (48, 50), (52, 50), (56, 60), (114, 110), (116, 120)]
)
def test_us_calories_are_rounded_as_21_cfr_101_9_says(kilocalories: float, told: int) -> None:
    assert us_calories(kilocalories) == told


@pytest.mark.parametrize(
    ("factors", "grams", "fat", "told"),
    [
        ("US", 0.49, True, "0 g"), ("US", 3.3, True, "3.5 g"), ("US", 5.4, True, "5 g"),
        ("US", 0.49, False, "0 g"), ("US", 0.9, False, "less than 1 g"), ("US", 1.6, False, "2 g"),
        ("EU", 0.5, False, "<0.5 g"), ("EU", 3.44, False, "3.4 g"), ("EU", 12.5, False, "13 g"),
    ],
)  # fmt: skip
def test_grams_are_rounded_by_the_rules(factors: str, grams: float, fat: bool, told: str) -> None:
    """21 CFR 101.9(c)(2) and (6); European Commission guidance on tolerances, December 2012."""
    assert grams_words("US" if factors == "US" else "EU", grams, fat) == told


def test_energy_is_written_by_the_rules_of_the_book() -> None:
    assert energy_words("EU", 1283.6, 306.4) == "1284 kJ / 306 kcal"
    assert energy_words("US", 1283.6, 306.4) == "310 Calories"


def labelled(shop: str = "") -> Book:
    """The small bar whose creamer tells its components instead of its energy (SR28 01069, rounded)."""
    given = files()
    pantry = given["pantry.toml"]
    start = pantry.index("[creamer]")
    block = pantry[start : pantry.index("[fructose]")]
    told = 'carbohydrate = "59 %"\nprotein = "2.5 %"\nfat = "33 %"\nfibre = "1 %"'
    given["pantry.toml"] = pantry.replace(block, block.replace('energy = "0 kJ/0 kcal"', told))
    given["shop.toml"] = given["shop.toml"].replace('tolerance = "10 %"', f'tolerance = "10 %"\n{shop}')
    return parse_book(given)


def test_without_a_label_energy_comes_from_the_components_by_the_books_factors() -> None:
    eu, us = labelled(), labelled('energy = "US"')
    assert eu.pantry["creamer"].energy_kcal == pytest.approx(4 * 61.5 + 9 * 33 + 2 * 1)
    assert us.pantry["creamer"].energy_kcal == pytest.approx(4 * 62.5 + 9 * 33)
    one, other = (resolve(book, book.drinks["it"].default) for book in (eu, us))
    assert replace(one.balance, energy_kj=0, energy_kcal=0) == replace(
        other.balance, energy_kj=0, energy_kcal=0
    )
    assert one.energy_words.endswith(" kcal")
    assert other.energy_words.endswith(" Calories")
