"""A bar small enough to be reckoned by hand: one cup, two drinks, a 7 ml pump, water-like ingredients."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from recipes.book import Book
from recipes.reading.reader import parse_book
from tests.recipes.cases import OPENING

SHOP = (
    "# The shop of the tests."
    + OPENING.replace("Test Bar", "Small Bar")
    + """
[stations.cup]
name = "Cup"

[stations.bar]
name = "Bar"

[tools.pump]
name = "pump"
kind = "pump"
one = "stroke"
many = "strokes"
holds = "7 ml"
smallest = "1"

[tools.jug]
name = "jug"
kind = "jug"
smallest = "1"

[tools.machine]
name = "machine"
kind = "shot"
one = "shot"
many = "shots"
holds = "40 ml"
smallest = "1"

[tools.cube]
name = "ice scoop"
kind = "cube"
one = "cube"
many = "cubes"
holds = "20 ml"
smallest = "1"

[tools.ladle]
name = "ladle"
kind = "ladle"
one = "ladle"
many = "ladles"
holds = "50 ml"
smallest = "1/2"

[sizes.small]
name = "Small"
line = "300 ml"
brim = "330 ml"

[sizes.large]
name = "Large"
line = "600 ml"
brim = "660 ml"

[sugar]
0 = "no sugar"
50 = "half sugar"
100 = "full sugar"

[ice.none]
name = "no ice"
cubes = "0 %"

[ice.regular]
name = "regular ice"
cubes = "100 %"

[families.all]
name = "All"
"""
)

PANTRY = """
[syrup]
name = "Syrup"
short = "Syrup"
kind = "syrup"
density = "1.30 g/ml"
sugars = "60 %"
dry = "60 %"
energy = "1020 kJ/240 kcal"
serving = "20 °C"
price = "2.00 EUR/kg"

[tea]
name = "Tea"
short = "Tea"
kind = "liquid"
density = "1 g/ml"    # as good as water
sugars = "0 %"
dry = "0 %"
caffeine = "0.3 mg/g"
energy = "0 kJ/0 kcal"
serving = "80 °C"
price = "1.00 EUR/kg"

[cold_tea]
name = "Cold tea"
short = "Cold tea"
kind = "liquid"
density = "1 g/ml"
sugars = "0 %"
dry = "0 %"
caffeine = "0.3 mg/g"
energy = "0 kJ/0 kcal"
serving = "4 °C"
price = "1.00 EUR/kg"

[coffee]
name = "Coffee"
short = "Coffee"
kind = "espresso"
density = "1 g/ml"
sugars = "0 %"
dry = "5 %"
caffeine = "2 mg/g"
energy = "0 kJ/0 kcal"
serving = "67 °C"
price = "9.00 EUR/kg"

[oat_milk]
name = "Oat milk"
short = "Oat milk"
kind = "milk"
density = "1.03 g/ml"
sugars = "0 %"
dry = "10 %"
energy = "190 kJ/45 kcal"
serving = "5 °C"
price = "1.50 EUR/kg"

[pearls]
name = "Pearls"
short = "Pearls"
kind = "topping"
density = "0.7 g/ml"
body = "1.1 g/ml"
sugars = "10 %"
dry = "35 %"
energy = "640 kJ/151 kcal"
allergens = ["milk"]
serving = "5 °C"
price = "3.00 EUR/kg"

[ice]
name = "Ice"
short = "Ice"
kind = "ice"
density = "0.917 g/ml"
body = "0.917 g/ml"
sugars = "0 %"
dry = "0 %"
energy = "0 kJ/0 kcal"
serving = "-2 °C"
price = "0.10 EUR/kg"
"""

EXTRAS = """
[toppings]
most = 1
station = "cup"

[toppings.choices.pearls]
name = "pearls"
ingredient = "pearls"
portion = "1 ladle"
price = 0.70

[milks.none_here]
name = "oat milk"
ingredient = "oat_milk"

[shot]
ingredient = "coffee"
tool = "machine"
station = "bar"
time = "25 to 30 s"
crema = "10 ml"
price = 0.90
"""

ICED = """
name = "Iced Tea"           # the cold one
family = "all"
about = "Cold tea and syrup over ice."
size = "small"
ices = ["none", "regular"]
shots = 1
{more}

[prices]
small = 3.30
large = 4.40

[usual]
size = "small"
sugar = 100
ice = "regular"

[[steps]]
station = "bar"
do = "pump"
what = "syrup"
amount = "{syrup}"
tool = "pump"
role = "sweetener"

[[steps]]
station = "bar"
do = "pour"
what = "{tea}"
amount = "120 ml"
{instead}

[[steps]]
station = "bar"
do = "ice"
what = "ice"
amount = "3 cubes"

[[steps]]
station = "bar"
do = "seal"
"""

COMBINATIONS = 2 * 3 * 2 * 2 * 3
"""Of the iced tea: sizes, sugars, ices, shots (0, 1), toppings (none, pearls, half pearls)."""


def iced(syrup: str = "14 ml", tea: str = "cold_tea", instead: str = "", more: str = "") -> str:
    """The iced tea's file. Two strokes of syrup are one at half sugar: measurable at every level."""
    return ICED.format(syrup=syrup, tea=tea, instead=instead, more=more)


GOOD = iced()

COARSE = iced(syrup="7 ml")
"""One stroke, so half a stroke at half sugar: 3.5 ml wanted, 7 ml the pump's only step. A tie rounds up."""

MILK = """[[steps]]
station = "bar"
do = "ladle"
what = "oat_milk"
amount = { small = "8 ml", large = "18 ml" }
tool = "ladle"

"""

LADLED = (
    iced()
    .replace('size = "small"\nsugar', 'size = "large"\nsugar')
    .replace('[[steps]]\nstation = "bar"\ndo = "ice"', MILK + '[[steps]]\nstation = "bar"\ndo = "ice"')
)
"""Oat milk by a ladle that gives 25 ml or nothing: 8 ml wanted in the small cup and 18 ml in the large."""

WARMER = iced(tea="tea", instead='instead = { none = "cold_tea" }')
"""Without ice the tea is cold (4 °C), with ice it is hot, and three cubes do not cool it as far."""


def files(**drinks: str) -> dict[str, str]:
    """The files of the small bar with these drinks by id."""
    found = {"shop.toml": SHOP, "pantry.toml": PANTRY, "extras.toml": EXTRAS}
    return found | {f"drinks/{id}.toml": text for id, text in drinks.items()}


def bar(**drinks: str) -> Book:
    """The small bar's book."""
    return parse_book(files(**drinks))


def write(folder: Path, texts: Mapping[str, str]) -> Path:
    """A book's files as a folder."""
    (folder / "drinks").mkdir(parents=True, exist_ok=True)
    for name, text in texts.items():
        (folder / name).write_text(text, encoding="utf-8")
    return folder
