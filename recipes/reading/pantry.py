"""pantry.toml: every ingredient as the brand in use measures. A change of brand is a change here only."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import get_args

from recipes.allergens import TOLD
from recipes.balance.energy import Factors, energy
from recipes.book import Ingredient, Kind
from recipes.reading.bounds import BODY, DENSITY, SERVING, Bounds
from recipes.reading.currencies import Currency
from recipes.reading.shop import ShopPart
from recipes.reading.table import Table
from recipes.units import MASS_G, TIME_S, VOLUME_ML, NotAQuantity, in_unit, quantity

KINDS: tuple[Kind, ...] = get_args(Kind)
PIECES: tuple[Kind, ...] = ("topping", "ice")
"""Kinds that lie in the drink as pieces and so have a density of their own, apart from the heap's."""

LEAST_HOT_C = 40
"""Below this nothing is called hot, °C."""

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
    told = len(table.page.faults)
    density = _within(table, "density", one_of("g/ml"), DENSITY[kind], "1.05 g/ml")
    body = _within(table, "body", one_of("g/ml"), BODY[kind], "1.15 g/ml") if kind in PIECES else density
    if body < density and len(table.page.faults) == told:
        table.fault("body", "at least the density", "the pieces cannot be lighter than the heap they make")
    sugars, dry = table.percent("sugars", 0, 100), table.percent("dry", 0, 100)
    if sugars > dry:
        table.fault(
            "sugars", "at most the dry matter", f"{sugars:.0%} sugars are more than {dry:.0%} dry matter"
        )
    parts = {name: table.percent(name, 0, 100, default=0.0) for name in COMPONENTS}
    _check_components(table, sugars, dry, parts)
    energy_kj, energy_kcal = _energy(table, parts, shop.factors)
    serving = _within(table, "serving", celsius, SERVING[kind], "4 °C")
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
        serving_c=serving,
        hot_c=_hot(table, serving) if table.has("hot") else None,
        price_per_kg=_price(table, shop.currency, density),
        hold_s=table.parsed("keep", seconds, 60, 3.2e7, "4 h") if table.has("keep") else None,
        finer=table.choices("finer", shop.tools, ()),
        **parts,
    )


def _within(table: Table, key: str, parse: Callable[[str], Fraction], bounds: Bounds, example: str) -> float:
    return table.parsed(key, parse, bounds.low, bounds.high, example, why=bounds.why)


def _hot(table: Table, serving: float) -> float:
    """How it goes into a hot drink: heated, so never below how it stands at the bar."""
    why = "heated for a hot drink, from what it is at the bar"
    return table.parsed("hot", celsius, max(LEAST_HOT_C, serving), 100, "65 °C", why=why)


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


def _price(table: Table, currency: Currency, density: float) -> float:
    """What a kilogram costs in minor units, from a price per unit of mass or volume: "9.50 EUR/kg"."""
    code, most = currency.code, currency.most_cost
    example = f"{currency.example} {code}"
    accepted = f'text such as "{example}/kg" or "{example}/l", at most {most} {code} a kilogram or litre'
    text = table.text("price", 40)
    try:
        value, unit = quantity(text)
    except NotAQuantity:
        value, unit = Fraction(0), ""
    money, _, per = unit.partition("/")
    base = MASS_G.get(per) or VOLUME_ML.get(per)
    if money != code or base is None or value * 1000 / base > most:
        table.fault("price", accepted, f"is {text!r}; accepted: {accepted}")
        return 0.0
    grams = float(base) if per in MASS_G else float(base) * density
    return float(value) * float(10**currency.digits) * 1000 / grams
