"""A small bar for tests: one drink, given as text, over a fixed shop and pantry; and builds as text."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import recipes
from recipes.book import Book
from recipes.measures import figure
from recipes.model import Build
from recipes.reading.reader import parse_book, read_book

DEMO = Path(recipes.__file__).parent / "books" / "tideglass"

OPENING = """
[shop]
name = "Test Bar"
town = "Nowhere"
currency = "EUR"
time_zone = "Europe/Lisbon"
day_starts = "04:00"
tolerance = "10 %"

[tax]
name = "VAT"
percent = "10 %"
rounded = "order"
"""
"""How the shop.toml of every book for tests begins."""

SHOP = (
    OPENING
    + """
[stations.toppings]
name = "Toppings"
[stations.scoop]
name = "Scoop"
[stations.espresso]
name = "Espresso"
[stations.tea]
name = "Tea"
[stations.shake]
name = "Shake"
[stations.seal]
name = "Seal"

[tools.scoop]
name = "level scoop"
kind = "scoop"
one = "scoop"
many = "scoops"
holds = "18 ml"
smallest = "1/2"
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
smallest = "5"
[tools.shot]
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
holds = "27 ml"
smallest = "1"
[tools.ladle]
name = "ladle"
kind = "ladle"
one = "ladle"
many = "ladles"
holds = "60 ml"
smallest = "1/2"

[vessels.shaker]
name = "shaker"
holds = "700 ml"

[sizes.small]
name = "Small"
line = "300 ml"
brim = "330 ml"
[sizes.medium]
name = "Medium"
line = "400 ml"
brim = "440 ml"
[sizes.large]
name = "Large"
line = "600 ml"
brim = "650 ml"

[sugar]
0 = "no sugar"
50 = "half sugar"
100 = "full sugar"
125 = "extra sugar"

[ice.none]
name = "no ice"
cubes = "0 %"
[ice.less]
name = "less ice"
cubes = "50 %"
[ice.regular]
name = "regular ice"
cubes = "100 %"
[ice.extra]
name = "extra ice"
cubes = "125 %"

[families.all]
name = "All"
"""
)


def entry(ingredient: str, name: str, kind: str, density: str, **more: str) -> str:
    """One pantry entry as text; what is not given is water-like."""
    keys = {
        "name": name, "short": name[:14], "kind": kind, "density": f"{density} g/ml", "sugars": "0 %",
        "dry": "0 %", "energy": "0 kJ/0 kcal", "serving": "20 °C", "price": "1 EUR/kg",
    }  # fmt: skip
    lists = {key: value for key, value in more.items() if value.startswith("[")}
    keys |= {key: value for key, value in more.items() if key not in lists}
    lines = [f'{key} = "{value}"' for key, value in keys.items()]
    return "\n".join([f"[{ingredient}]", *lines, *(f"{key} = {value}" for key, value in lists.items()), ""])


PANTRY = "\n".join(
    [
        entry(
            "powder", "Taro powder", "powder", "0.50", dry="96 %", sugars="40 %", energy="1680 kJ/400 kcal"
        ),
        entry("creamer", "Creamer", "powder", "0.40", dry="97 %", allergens='["milk"]'),
        entry("fructose", "Liquid fructose", "syrup", "1.37", dry="76 %", sugars="76 %"),
        entry("hot_water", "Hot water", "liquid", "0.965", serving="90 °C"),
        entry("tea", "Strong black tea", "liquid", "0.98", serving="80 °C", caffeine="0.36 mg/g"),
        entry("cold_tea", "Chilled tea", "liquid", "1", serving="4 °C", caffeine="0.36 mg/g"),
        entry("milk", "Whole milk", "milk", "1.031", serving="4 °C", hot="65 °C", allergens='["milk"]'),
        entry("oat", "Oat milk", "milk", "1.03", serving="4 °C", hot="65 °C", allergens='["oats"]'),
        entry("espresso", "Espresso", "espresso", "1", serving="67 °C", caffeine="2.12 mg/g"),
        entry("water", "Chilled water", "liquid", "1", serving="4 °C"),
        entry("pearls", "Pearls", "topping", "0.72", body="1.15 g/ml", dry="37 %", sugars="10 %"),
        entry("popping", "Popping pearls", "topping", "0.70", body="1.05 g/ml", dry="17 %"),
        entry("jelly", "Jelly", "topping", "0.75", body="1.02 g/ml", dry="6 %"),
        entry("ice", "Ice", "ice", "0.917", body="0.917 g/ml", serving="-2 °C"),
    ]
)

EXTRAS = """
[toppings]
most = 3
station = "toppings"
[toppings.choices.pearls]
name = "pearls"
ingredient = "pearls"
portion = "1 ladle"
price = 0.65
choking = true
[toppings.choices.popping]
name = "popping pearls"
ingredient = "popping"
portion = "1 ladle"
price = 0.80
half_price = 0.45
hot = false
[toppings.choices.jelly]
name = "jelly"
ingredient = "jelly"
portion = "1 ladle"
price = 0.60
[milks.whole]
name = "whole milk"
ingredient = "milk"
[milks.oat]
name = "oat milk"
ingredient = "oat"
price = 0.50
[shot]
ingredient = "espresso"
tool = "shot"
station = "espresso"
time = "25 to 30 s"
crema = "10 ml"
price = 0.90
"""

HEAD = """
name = "Taro Milk Tea"
family = "all"
about = "For tests."
size = "medium"
shots = 2
vessel = "shaker"
[prices]
small = 3.00
medium = 4.00
large = 5.00
[usual]
size = "medium"
sugar = 100
ice = "regular"
"""

T6 = """
name = "Powder Milk Tea"
family = "all"
about = "The powder milk tea of common practice, for a cup of 400 ml to the seal line."
size = "medium"
hot = true
shots = 2
vessel = "shaker"
without = ["creamer"]
[prices]
small = 3.00
medium = 4.00
large = 5.00
[usual]
size = "medium"
sugar = 100
ice = "regular"
[keep]
powder = "nothing would taste of taro"
[top_up]
cold = "water"
hot = "hot_water"
station = "tea"
tool = "jug"
[[steps]]
station = "scoop"
do = "scoop"
what = "powder"
amount = "2 scoops"
[[steps]]
station = "scoop"
do = "scoop"
what = "creamer"
amount = "2 scoops"
[[steps]]
station = "scoop"
do = "pump"
what = "fructose"
amount = "14 ml"
tool = "pump"
role = "sweetener"
[[steps]]
station = "scoop"
do = "pour"
what = "hot_water"
amount = "25 ml"
role = "dissolve"
[[steps]]
station = "scoop"
do = "stir"
role = "dissolve"
time = "20 s"
[[steps]]
station = "tea"
do = "pour"
what = "tea"
amount = "100 ml"
[[steps]]
station = "shake"
do = "ice"
what = "ice"
amount = "7 cubes"
[[steps]]
station = "shake"
do = "shake"
when = "iced"
time = "30 to 60 s"
hands = false
[[steps]]
station = "seal"
do = "seal"
"""
"""Common practice: one iced powder milk tea; no published source."""


FINE = SHOP + "# measured finely\n"
"""The small bar with scoops, strokes, jugs and cubes in steps that hardly round. No hand has such, so no
book may say so: ``bar`` puts them in once it is read."""

FINE_STEPS = {"jug": "0.5", "scoop": "0.02", "pump": "0.05", "cube": "0.1"}

MILKY = T6.replace("hot = true", 'hot = true\nmilks = ["whole", "oat"]').replace(
    '[[steps]]\nstation = "shake"',
    '[[steps]]\nstation = "tea"\ndo = "pour"\nwhat = "milk"\namount = "40 ml"\nrole = "milk"\nwhen = "iced"\n'
    '[[steps]]\nstation = "tea"\ndo = "steam"\nwhat = "milk"\namount = "40 ml"\nrole = "milk"\nwhen = "hot"\n'
    '[[steps]]\nstation = "shake"',
    1,
)
"""The powder milk tea with a little milk in it, so that milks can be chosen."""


def files(drink: str = T6, **changed: str) -> dict[str, str]:
    """The files of the small bar with one drink; ``shop``, ``pantry`` and ``extras`` may be replaced."""
    return {
        "shop.toml": changed.get("shop", SHOP),
        "pantry.toml": changed.get("pantry", PANTRY),
        "extras.toml": changed.get("extras", EXTRAS),
        "drinks/it.toml": drink,
    }


def bar(drink: str = T6, **changed: str) -> Book:
    """The small bar's book."""
    book = parse_book(files(drink, **changed))
    return finely(book, FINE_STEPS) if changed.get("shop") == FINE else book


def finely(book: Book, steps: Mapping[str, str]) -> Book:
    """The book with other smallest steps of its tools, by their ids, each read at a mark of its own: what a
    hand finds odd about a fiftieth of a scoop is left out with it."""
    finer = {
        id: replace(
            book.tools[id], kind="jug", smallest=Fraction(step), mark_ml=float(Fraction(step)), reads_ml=None
        )
        for id, step in steps.items()
    }
    return replace(book, tools={**book.tools, **finer})


def demo_files() -> Mapping[str, str]:
    """The files of the demo book."""
    return read_book(DEMO).files


def steps_of(build: Build) -> str:
    """The steps of a build as text, one a line: station, count, unit, cell label, seconds."""
    lines = []
    for step in build.steps:
        amount = f"{figure(step.amount.count)} {step.amount.unit} " if step.amount else ""
        time = ""
        if step.duration:
            hands = "" if step.duration.attended else " by itself"
            time = f" {step.duration.low_s:.0f}-{step.duration.high_s:.0f} s{hands}"
        lines.append(f"{step.number} {step.station}: {amount}{step.short}{time}")
    return "\n".join(lines)
