"""pantry.toml: every ingredient as the brand in use measures. A change of brand is a change here only."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import get_args

from recipes.allergens import TOLD
from recipes.balance.energy import Factors, energy
from recipes.book import Ingredient, Kind
from recipes.reading.shop import ShopPart
from recipes.reading.table import Table
from recipes.units import MASS_G, TIME_S, VOLUME_ML, NotAQuantity, in_unit, quantity

KINDS: tuple[Kind, ...] = get_args(Kind)
PIECES: tuple[Kind, ...] = ("topping", "ice")
"""Kinds that lie in the drink as pieces and so have a density of their own, apart from the heap's."""

COMPONENTS = ("carbohydrate", "protein", "fat", "fibre")
"""What a label tells of the dry matter, as shares of the mass; carbohydrate without fibre."""


def read_pantry(root: Table, shop: ShopPart) -> dict[str, Ingredient]:
    """Every ingredient by id; the shop gives the currency of prices, the tools and the energy factors."""
    pantry: dict[str, Ingredient] = {}
    for key, table in root.each():
        pantry[key] = _ingredient(key, table, shop)
        table.close()
    root.close()
    return pantry


def one_of(unit: str) -> Callable[[str], Fraction]:
    """A parser for quantities in this one unit."""
    return lambda text: in_unit(text, {unit: Fraction(1)})


def seconds(text: str) -> Fraction:
    """A length of time as written, in seconds."""
    return in_unit(text, TIME_S)


def celsius(text: str) -> Fraction:
    """A temperature such as "85 °C" or "-2 °C"."""
    below = text.strip().startswith("-")
    value = in_unit(text.strip().removeprefix("-"), {"°C": Fraction(1)})
    return -value if below else value


def _ingredient(key: str, table: Table, shop: ShopPart) -> Ingredient:
    kind = table.choice("kind", KINDS)
    density = table.parsed("density", one_of("g/ml"), 0.05, 3, "0.50 g/ml")
    pieces = kind in PIECES
    body = table.parsed("body", one_of("g/ml"), 0.3, 3, "1.15 g/ml") if pieces else density
    if body < density:
        table.fault("body", "at least the density", "the pieces cannot be lighter than the heap they make")
    sugars, dry = table.percent("sugars", 0, 100), table.percent("dry", 0, 100)
    if sugars > dry:
        table.fault(
            "sugars", "at most the dry matter", f"{sugars:.0%} sugars are more than {dry:.0%} dry matter"
        )
    parts = {name: table.percent(name, 0, 100, default=0.0) for name in COMPONENTS}
    _check_components(table, sugars, dry, parts)
    energy_kj, energy_kcal = _energy(table, parts, shop.factors)
    return Ingredient(
        id=key,
        name=table.text("name", 40),
        short=table.text("short", 14),
        kind=kind,
        brand=table.text("brand", 40, default="own"),
        density=density,
        body_density=body,
        sugars=sugars,
        dry=dry,
        caffeine=table.parsed("caffeine", one_of("mg/g"), 0, 100, "0.2 mg/g", default=0.0),
        energy_kj=energy_kj,
        energy_kcal=energy_kcal,
        allergens=tuple(TOLD[word] for word in table.choices("allergens", TOLD, ())),
        serving_c=table.parsed("serving", celsius, -30, 100, "4 °C"),
        hot_c=table.parsed("hot", celsius, 40, 100, "65 °C") if table.has("hot") else None,
        price_per_kg=_price(table, shop.shop.currency, shop.shop.minor_digits, density),
        hold_s=table.parsed("keep", seconds, 60, 3.2e7, "4 h") if table.has("keep") else None,
        finer=table.choices("finer", shop.tools, ()),
        **parts,
    )


def _check_components(table: Table, sugars: float, dry: float, parts: Mapping[str, float]) -> None:
    """Components, where a label names any, hold the sugars and are held by the dry matter."""
    if not any(parts.values()):
        return
    # Labels are rounded to whole grams in a hundred, component by component.
    if sugars > parts["carbohydrate"] + 0.01:
        table.fault(
            "carbohydrate", "at least the sugars", f"{sugars:.1%} sugars are more than all carbohydrate"
        )
    if sum(parts.values()) > dry + 0.02:
        table.fault(
            "dry", "at least its components", f"{sum(parts.values()):.1%} of components are in {dry:.1%} dry"
        )


def _energy(table: Table, parts: Mapping[str, float], factors: Factors) -> tuple[float, float]:
    """Energy per 100 g as the label has it, ``"1720 kJ/411 kcal"``; without one, by the book's factors.

    By the factors of Regulation (EU) 1169/2011 Annex XIV a kilocalorie is 4.11 (fat) to 4.25 kJ (sugar).
    """
    if any(parts.values()) and not table.has("energy"):
        grams = {name: 100 * share for name, share in parts.items()}
        return energy(factors, **grams)
    accepted = 'text such as "1720 kJ/411 kcal", per 100 g, as on the label'
    text = table.text("energy", 40)
    first, _, second = text.partition("/")
    try:
        kilojoules = float(in_unit(first, {"kJ": Fraction(1)}))
        kilocalories = float(in_unit(second, {"kcal": Fraction(1)}))
    except NotAQuantity:
        table.fault("energy", accepted, f"is {text!r}; accepted: {accepted}")
        return 0.0, 0.0
    if kilojoules > 3700 or abs(kilojoules - 4.18 * kilocalories) > 3 + 0.05 * kilojoules:
        table.fault("energy", accepted, f"{text} do not agree: 1 kcal is about 4.18 kJ, and fat has 3700 kJ")
    return kilojoules, kilocalories


def _price(table: Table, currency: str, digits: int, density: float) -> float:
    """What a kilogram costs in minor units, from a price per unit of mass or volume: "9.50 EUR/kg"."""
    accepted = f'text such as "9.50 {currency}/kg" or "1.20 {currency}/l"'
    text = table.text("price", 40)
    try:
        value, unit = quantity(text)
    except NotAQuantity:
        value, unit = Fraction(0), ""
    money, _, per = unit.partition("/")
    if money != currency or per not in (*MASS_G, *VOLUME_ML) or value > 10000:
        table.fault("price", accepted, f"is {text!r}; accepted: {accepted}")
        return 0.0
    grams = float(MASS_G[per]) if per in MASS_G else float(VOLUME_ML[per]) * density
    return float(value) * float(10**digits) * 1000 / grams
