"""extras.toml: what a customer can have on top: toppings, other milks, extra shots."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from recipes.book import Ingredient, Measured, Milk, Shot, Topping
from recipes.cautions import CHOKING
from recipes.measures import measured
from recipes.model import Duration
from recipes.reading.shop import ShopPart, millilitres
from recipes.reading.table import Table
from recipes.units import NotAQuantity, seconds_range


@dataclass(frozen=True, slots=True)
class ExtrasPart:
    """What extras.toml gives to the book."""

    toppings: Mapping[str, Topping]
    toppings_max: int
    toppings_station: str
    milks: Mapping[str, Milk]
    shot: Shot


def read_extras(root: Table, shop: ShopPart, pantry: Mapping[str, Ingredient]) -> ExtrasPart:
    """Read the whole file; its faults are on the table's page."""
    offer = root.table("toppings")
    toppings_max = offer.whole("most", 0, 10)
    station = offer.choice("station", shop.stations)
    toppings: dict[str, Topping] = {}
    for key, table in offer.table("choices", needed=False).each(100, least=0):
        toppings[key] = _topping(key, table, shop, pantry)
        table.close()
    offer.close()
    milks: dict[str, Milk] = {}
    for key, table in root.table("milks", needed=False).each(30, least=0):
        name, ingredient = table.text("name", 30), table.choice("ingredient", pantry)
        milks[key] = Milk(key, name, ingredient, table.money("price", shop.shop.minor_digits, default=0))
        table.close()
    shot = _shot(root.table("shot"), shop, pantry)
    root.close()
    return ExtrasPart(toppings, toppings_max, station, milks, shot)


def _topping(key: str, table: Table, shop: ShopPart, pantry: Mapping[str, Ingredient]) -> Topping:
    ingredient = table.choice("ingredient", pantry)
    portion = read_amount(table, "portion", None, shop, pantry.get(ingredient))
    price = table.money("price", shop.shop.minor_digits)
    return Topping(
        id=key,
        name=table.text("name", 30),
        ingredient=ingredient,
        tool=portion.tool,
        portion_ml=portion.ml,
        price=price,
        half_price=table.money("half_price", shop.shop.minor_digits, default=(price + 1) // 2),
        hot=table.flag("hot", True),
        caution=CHOKING if table.flag("choking", False) else None,
    )


def _shot(table: Table, shop: ShopPart, pantry: Mapping[str, Ingredient]) -> Shot:
    tools = {tool.id: tool for tool in shop.tools.values() if tool.kind == "shot"}
    if not tools:
        table.fault(None, 'a tool of kind "shot"', 'needs a tool of kind "shot" in shop.toml')
        tools = dict(shop.tools)
    shot = Shot(
        ingredient=table.choice("ingredient", pantry),
        tool=table.choice("tool", tools),
        station=table.choice("station", shop.stations),
        duration=read_time(table, attended=False) or Duration(0, 0, False),
        crema_ml=table.parsed("crema", millilitres, 0, 100, "10 ml"),
        price=table.money("price", shop.shop.minor_digits),
        collapse=table.percent("collapse", 0, 100, default=0.0),
    )
    table.close()
    return shot


def read_amount(
    table: Table, key: str, tool: str | None, shop: ShopPart, ingredient: Ingredient | None
) -> Measured:
    """An amount in the bar's measures, more than nothing and at most two litres."""
    accepted = 'an amount such as "2 scoops", "14 ml" or "18 g", above nothing and up to 2 l'
    text = table.text(key, 40)
    density = ingredient.density if ingredient else 1.0
    nothing = Measured(next(iter(shop.tools), ""), 0.0)
    if not text or not any(each.kind == "jug" for each in shop.tools.values()):
        return nothing
    try:
        found = measured(text, shop.tools, tool, density)
    except NotAQuantity as problem:
        table.fault(key, accepted, f"{problem}; accepted: {accepted}")
        return nothing
    if not 0 < found.ml <= 2000:
        table.fault(key, accepted, f"is {text!r}; accepted: {accepted}")
        return nothing
    return found


def read_time(table: Table, attended: bool) -> Duration | None:
    """``time = "30 to 60 s"`` with ``hands`` (whether it needs hands all the while), or None without one."""
    hands = table.flag("hands", attended)
    if not table.has("time"):
        return None
    accepted = 'a time such as "20 s" or "30 to 60 s", up to 1 h'
    text = table.text("time", 40)
    try:
        low, high = seconds_range(text)
    except NotAQuantity as problem:
        table.fault("time", accepted, f"{problem}; accepted: {accepted}")
        return None
    if not 0 < high <= 3600:
        table.fault("time", accepted, f"is {text!r}; accepted: {accepted}")
    return Duration(float(low), float(high), hands)
