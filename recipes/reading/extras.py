"""extras.toml: what a customer can have on top: toppings, other milks, extra shots."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from recipes.book import Ingredient, Kind, Measured, Milk, Shot, Tool, Topping
from recipes.measures import measured
from recipes.model import Duration
from recipes.reading.shop import ShopPart, millilitres
from recipes.reading.table import Table, listed
from recipes.telling.cautions import CHOKING
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
        name, ingredient = table.text("name", 30), _of_kind(table, "ingredient", pantry, "milk")
        milks[key] = Milk(key, name, ingredient, table.money("price", shop.currency, default=0))
        table.close()
    shot = _shot(root.table("shot"), shop, pantry)
    root.close()
    return ExtrasPart(toppings, toppings_max, station, milks, shot)


def _topping(key: str, table: Table, shop: ShopPart, pantry: Mapping[str, Ingredient]) -> Topping:
    ingredient = _of_kind(table, "ingredient", pantry, "topping")
    portion = read_amount(table, "portion", None, shop, pantry.get(ingredient))
    price = table.money("price", shop.currency)
    halved = table.flag("half", True)
    if portion.ml > 0:
        _check_portion(table, shop.tools[portion.tool], portion.ml, halved)
    return Topping(
        id=key,
        name=table.text("name", 30),
        ingredient=ingredient,
        tool=portion.tool,
        portion_ml=portion.ml,
        price=price,
        half_price=_half_price(table, shop, price, halved),
        hot=table.flag("hot", True),
        caution=CHOKING if table.flag("choking", False) else None,
    )


def _half_price(table: Table, shop: ShopPart, price: int, halved: bool) -> int | None:
    """What a half portion costs, half of the whole unless the book says otherwise; None without halves."""
    if not halved:
        if table.has("half_price"):
            table.fault(
                "half_price", "no half_price", "prices a half that is not served; accepted: no half_price"
            )
        return None
    half_price = table.money("half_price", shop.currency, default=(price + 1) // 2)
    if half_price > price:
        accepted = "at most the price of the whole"
        table.fault(
            "half_price", accepted, f"a half portion is never dearer than the whole; accepted: {accepted}"
        )
    return half_price


def _check_portion(table: Table, tool: Tool, portion_ml: float, halved: bool) -> None:
    """A portion, and half of it where halves are served, is so many whole steps of its tool."""
    steps = portion_ml / tool.step_ml
    if not _whole(steps):
        accepted = _portions(tool, steps, 1)
        message = f"is not a multiple of {_step(tool)}; accepted: {accepted}"
        table.fault("portion", accepted, message)
    elif halved and not _whole(steps / 2):
        accepted = f"half = false, or a portion of {_portions(tool, steps, 2)}"
        message = f"half of it is not a multiple of {_step(tool)}; accepted: {accepted}"
        table.fault("half" if table.has("half") else "portion", accepted, message)


def _whole(steps: float) -> bool:
    return round(steps) >= 1 and abs(steps - round(steps)) < 1e-6


def _step(tool: Tool) -> str:
    return f"the {tool.name}'s smallest step, {written(tool, 1)}"


def _portions(tool: Tool, steps: float, multiple: int) -> str:
    """The portions nearest to so many steps that are a multiple of so many, as they are written."""
    below = int(steps // multiple) * multiple
    near = [count for count in (below, below + multiple) if count > 0]
    return " or ".join(f'"{written(tool, count)}"' for count in near)


def written(tool: Tool, steps: int) -> str:
    """So many smallest steps of a tool, as an amount is written: "1 1/2 ladles", "20 ml"."""
    count = steps * tool.smallest
    if tool.kind in ("jug", "jigger"):
        return f"{float(count):g} ml"
    whole, part = divmod(count, 1)
    figures = f"{whole or ''} {part or ''}".strip()
    return f"{figures} {tool.one if count <= 1 else tool.many}"


def _of_kind(table: Table, key: str, pantry: Mapping[str, Ingredient], kind: Kind) -> str:
    """An ingredient that is what it is offered as: it takes its room, melts and is worded by its kind."""
    told = len(table.page.faults)
    ingredient = table.choice(key, pantry)
    if len(table.page.faults) == told and pantry[ingredient].kind != kind:
        accepted = f"an ingredient of kind {kind!r}"
        suiting = listed([each.id for each in pantry.values() if each.kind == kind])
        message = (
            f"{ingredient!r} is of kind {pantry[ingredient].kind!r} in pantry.toml; "
            f"accepted: {accepted}: {suiting or '(none is there yet)'}"
        )
        table.fault(key, accepted, message)
    return ingredient


def _shot(table: Table, shop: ShopPart, pantry: Mapping[str, Ingredient]) -> Shot:
    tools = {tool.id: tool for tool in shop.tools.values() if tool.kind == "shot"}
    if not tools:
        table.fault(None, 'a tool of kind "shot"', 'needs a tool of kind "shot" in shop.toml')
        tools = dict(shop.tools)
    shot = Shot(
        ingredient=_of_kind(table, "ingredient", pantry, "espresso"),
        tool=table.choice("tool", tools),
        station=table.choice("station", shop.stations),
        duration=read_time(table, attended=False) or Duration(0, 0, False),
        crema_ml=table.parsed("crema", millilitres, 0, 100, "10 ml"),
        price=table.money("price", shop.currency),
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
