"""shop.toml: the shop, its tax, stations, tools, vessels, sizes, levels and families."""

from __future__ import annotations

import zoneinfo
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, fields
from fractions import Fraction
from typing import Literal, TypeVar, get_args

from recipes.balance.energy import Factors
from recipes.balance.load import ICE_PACKED
from recipes.book import (
    Bumped,
    Family,
    Floor,
    IceLevel,
    Shop,
    Size,
    Station,
    SugarLevel,
    Taste,
    Tax,
    Tool,
    Vessel,
)
from recipes.hands import Hands, ToolKind
from recipes.model import HOT
from recipes.reading.bounds import COARSEST_ML, FINEST_ML, HOLDS, PARTS, parts_in_words
from recipes.reading.currencies import CURRENCIES, Currency
from recipes.reading.table import Table, percent
from recipes.units import TIME_S, VOLUME_ML, in_unit, number

KINDS: tuple[ToolKind, ...] = get_args(ToolKind)

ROUNDED: tuple[Literal["order", "line"], ...] = ("order", "line")

BUMPED: tuple[Bumped, ...] = get_args(Bumped)

FACTORS: tuple[Factors, ...] = get_args(Factors)

MOST_SUGARS = 30
"""The most sugar levels: a menu with more cannot be read, nor proved."""

LEAST_PATIENCE_S = 0.1
"""Less would let seconds outweigh any taste."""

MOST_PLACES = 15
"""The most decimals of a tax rate, as many as a number in a book may have."""

V = TypeVar("V")


@dataclass(frozen=True, slots=True)
class ShopPart:
    """What shop.toml gives to the book."""

    shop: Shop
    currency: Currency
    tax: Tax
    tolerance_pct: float
    limit_pct: float
    taste: Taste
    hands: Hands
    factors: Factors
    floor: Floor
    stations: Mapping[str, Station]
    tools: Mapping[str, Tool]
    vessels: Mapping[str, Vessel]
    sizes: Mapping[str, Size]
    sugars: Mapping[int, SugarLevel]
    ices: Mapping[str, IceLevel]
    families: Mapping[str, Family]


def millilitres(text: str) -> Fraction:
    """A volume as written, in millilitres."""
    return in_unit(text, VOLUME_ML)


def seconds(text: str) -> Fraction:
    """A length of time as written, in seconds."""
    return in_unit(text, TIME_S)


def read_shop(root: Table, drinks: Collection[str]) -> ShopPart:
    """Read the whole file; its faults are on the table's page. ``drinks`` are the ids of its drinks."""
    shop = root.table("shop")
    tolerance = shop.percent("tolerance", 0.1, 100)
    limit = shop.percent("limit", 0.1, 1000, default=0.6)
    if limit < tolerance:
        shop.fault("limit", "at least the tolerance", "what is refused must be further off than what is told")
    factors = shop.choice("energy", FACTORS, default="EU")
    found = _shop(shop)
    part = ShopPart(
        shop=found,
        currency=CURRENCIES[found.currency],
        tax=_tax(root.table("tax")),
        tolerance_pct=tolerance * 100,
        limit_pct=limit * 100,
        taste=_taste(root.table("taste", needed=False)),
        hands=_hands(root.table("hands", needed=False)),
        factors=factors,
        floor=_floor(root.table("floor", needed=False)),
        stations=_each(root.table("stations"), _station, 20),
        tools=_each(root.table("tools"), _tool, 50),
        vessels=_each(root.table("vessels", needed=False), _vessel, 20) if root.has("vessels") else {},
        sizes=_each(root.table("sizes"), _size, 10),
        sugars=_sugars(root.table("sugar")),
        ices=_ices(root.table("ice")),
        families=_each(root.table("families"), lambda key, table: _family(key, table, drinks), 30),
    )
    _ask_for_tools(root, part)
    root.close()
    return part


def _each(table: Table, read: Callable[[str, Table], V], most: int) -> dict[str, V]:
    found: dict[str, V] = {}
    for key, inner in table.each(most):
        found[key] = read(key, inner)
        inner.close()
    return found


def _shop(table: Table) -> Shop:
    currency = table.choice("currency", CURRENCIES)
    zone = table.text("time_zone")
    if zone not in zoneinfo.available_timezones():
        accepted = 'an IANA time zone such as "Europe/Lisbon"'
        table.fault("time_zone", accepted, f"{zone!r} is not {accepted}")
    starts = table.text("day_starts")
    hour, _, minute = starts.partition(":")
    if not (len(starts) == 5 and hour.isdecimal() and minute.isdecimal() and hour < "24" and minute < "60"):
        table.fault(
            "day_starts", 'a time such as "04:00"', f'is {starts!r}; accepted: a time such as "04:00"'
        )
    shop = Shop(table.text("name"), table.text("town"), currency, CURRENCIES[currency].digits, zone, starts)
    table.close()
    return shop


def _taste(table: Table) -> Taste:
    """Weights as text from "0" to "100"; what is not given keeps the house's."""
    house = Taste()
    weights = {
        each.name: table.parsed(each.name, number, 0, 100, "1", default=getattr(house, each.name))
        for each in fields(Taste)
    }
    if not all(weights[name] > 0 for name in ("part", "sweetener", "milk", "fill")):
        table.fault(None, "weights above 0", "part, sweetener, milk and fill must weigh something")
    table.close()
    return Taste(**weights)


def _hands(table: Table) -> Hands:
    """Seconds of hands by act; what is not given keeps the house's."""
    house = Hands()
    acts = {
        each.name: table.parsed(each.name, seconds, 0, 120, "4 s", default=getattr(house, each.name))
        for each in fields(Hands)
    }
    if acts["patience"] < LEAST_PATIENCE_S:
        accepted = f"at least {LEAST_PATIENCE_S:g} s"
        table.fault("patience", accepted, f"no hand is in such a hurry; accepted: {accepted}")
        acts["patience"] = LEAST_PATIENCE_S
    table.close()
    return Hands(**acts)


def _tax(table: Table) -> Tax:
    tax = Tax(
        name=table.text("name", 20),
        percent=_rate(table),
        included=table.flag("included", True),
        rounded=table.choice("rounded", ROUNDED),
    )
    table.close()
    return tax


def _rate(table: Table) -> str:
    """The rate of the tax as decimal text, to the last figure that was written."""
    rate = table.exact("percent", percent, 0, 100, "10 %")
    places = next((places for places in range(MOST_PLACES + 1) if (rate * 10**places).denominator == 1), None)
    if places is None:
        accepted = f'a decimal such as "8.25 %", at most {MOST_PLACES} places'
        table.fault("percent", accepted, f"cannot be told in decimals; accepted: {accepted}")
        return "0"
    scaled = str(int(rate * 10**places)).zfill(places + 1)
    return f"{scaled[:-places]}.{scaled[-places:]}" if places else scaled


def _floor(table: Table) -> Floor:
    """What is not given is the house's."""
    house = Floor()
    before = len(table.page.faults)
    floor = Floor(
        soon_s=table.parsed("soon", seconds, 30, 4 * 3600, "5 min", default=house.soon_s),
        late_s=table.parsed("late", seconds, 30, 4 * 3600, "8 min", default=house.late_s),
        bump=table.choice("bump", BUMPED, default=house.bump),
        board_keeps_s=table.parsed(
            "board_keeps", seconds, 60, 24 * 3600, "10 min", default=house.board_keeps_s
        ),
    )
    # Where a time itself is at fault there is nothing to compare yet.
    if floor.late_s <= floor.soon_s and len(table.page.faults) == before:
        accepted = f"a time after soon ({floor.soon_s / 60:g} min)"
        table.fault(
            "late", accepted, f"is no later than soon ({floor.soon_s / 60:g} min); accepted: {accepted}"
        )
    table.close()
    return floor


def _station(key: str, table: Table) -> Station:
    return Station(key, table.text("name", 16), table.percent("melt", 1, 100, default=1.0))


def _tool(key: str, table: Table) -> Tool:
    kind = table.choice("kind", KINDS)
    by_the_ml = kind in ("jug", "jigger")
    unit, reads = 1.0, None
    if table.has("holds") or not by_the_ml:
        bounds = HOLDS[kind]
        holds = table.parsed("holds", millilitres, bounds.low, bounds.high, "30 ml", why=bounds.why)
        unit, reads = (1.0, holds) if by_the_ml else (holds, None)
        if kind == "ice scoop":
            unit *= ICE_PACKED
    smallest = _marks(table, reads or COARSEST_ML) if by_the_ml else _part(table)
    marks = table.parsed("marks", millilitres, 0.5, 500, "5 ml") if by_the_ml and table.has("marks") else None
    one = "ml" if by_the_ml else table.text("one", 20)
    many = "ml" if by_the_ml else table.text("many", 20)
    for word in (one, many):
        if not by_the_ml and (word in VOLUME_ML or not word.replace(" ", "").isalpha()):
            table.fault(
                "one",
                "a word such as scoop",
                f"{word!r} cannot name a measure; accepted: a word such as scoop",
            )
    return Tool(key, table.text("name", 30), kind, one, many, unit, smallest, reads, marks)


def _marks(table: Table, most: float) -> Fraction:
    """How far apart the marks of a jigger or jug are, ml."""
    return table.exact("smallest", number, FINEST_ML, most, "5", "millilitres between two marks")


def _part(table: Table) -> Fraction:
    """The part of a measure that a hand can take."""
    smallest = table.exact("smallest", number, float(PARTS[-1]), 1, "1/2", "a part of one measure")
    if smallest not in PARTS and float(PARTS[-1]) <= smallest <= 1:
        accepted = parts_in_words()
        table.fault(
            "smallest", accepted, f"{smallest} of a measure is not taken by hand; accepted: {accepted}"
        )
        return PARTS[0]
    return smallest


def _vessel(key: str, table: Table) -> Vessel:
    return Vessel(key, table.text("name", 30), table.parsed("holds", millilitres, 10, 5000, "750 ml"))


def _size(key: str, table: Table) -> Size:
    line = table.parsed("line", millilitres, 20, 3000, "360 ml")
    brim = table.parsed("brim", millilitres, 20, 3000, "400 ml")
    if brim < line:
        table.fault(
            "brim", "at least the seal line", f"the brim ({brim:g} ml) is below the seal line ({line:g} ml)"
        )
    return Size(key, table.text("name", 20), line, brim)


def _family(key: str, table: Table, drinks: Collection[str]) -> Family:
    return Family(key, table.text("name", 40), table.choices("drinks", drinks, ()))


def _sugars(table: Table) -> dict[int, SugarLevel]:
    levels: dict[int, SugarLevel] = {}
    keys = tuple(table)
    if len(keys) > MOST_SUGARS:
        accepted = f"at most {MOST_SUGARS} levels"
        table.fault(None, accepted, f"holds {len(keys)} levels; accepted: {accepted}")
    for key in keys[:MOST_SUGARS]:
        name = table.text(key, 30)
        if not (key.isascii() and key.isdecimal() and int(key) <= 500):
            accepted = "per cents from 0 to 500"
            table.fault(key, accepted, f"is not a sugar level; accepted: {accepted}")
            continue
        levels[int(key)] = SugarLevel(int(key), name)
    if 100 not in levels:
        table.fault(None, "the level 100", "lacks the level 100, which is what a recipe is written for")
    return levels


def _ices(table: Table) -> dict[str, IceLevel]:
    levels: dict[str, IceLevel] = {}
    for key, inner in table.each(10):
        if key == HOT:
            table.fault(key, "other ids", "is what a hot drink is called; it cannot name an ice level")
        levels[key] = IceLevel(key, inner.text("name", 30), inner.percent("cubes", 0, 300))
        inner.close()
    levels[HOT] = IceLevel(HOT, HOT, 0.0)
    return levels


def _ask_for_tools(root: Table, part: ShopPart) -> None:
    """The rules need a jug for free pours, and one regular ice level to compare the others with."""
    if not any(tool.kind == "jug" for tool in part.tools.values()):
        root.fault(
            "tools", 'a tool of kind "jug"', 'lacks a tool of kind "jug", which free pours are measured with'
        )
    if not any(level.factor == 1.0 for level in part.ices.values()):
        root.fault(
            "ice", 'a level with cubes = "100 %"', 'lacks a level with cubes = "100 %", the regular one'
        )
