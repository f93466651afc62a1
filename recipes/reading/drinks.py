"""drinks/<id>.toml: one drink each, its choices and its recipe at one size."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import get_args

from recipes.actions import ACTIONS, WITH_INGREDIENT
from recipes.book import Drink, Ingredient, Measured, RecipeStep, Role, TopUp, TopUpTo, When
from recipes.model import HOT, Line
from recipes.reading.extras import ExtrasPart, read_amount, read_time
from recipes.reading.shop import ShopPart
from recipes.reading.table import Table

WHENS: tuple[When, ...] = get_args(When)
TOP_UP_TO: tuple[TopUpTo, ...] = get_args(TopUpTo)
PUT_IN: tuple[Role, ...] = ("part", "sweetener", "dissolve", "milk", "ice")
WORK: tuple[Role, ...] = ("work", "dissolve")

LEAST_SHARE = 0.65
"""How much of the recipe a cup must hold under its toppings, unless the drink says another share: who pays
for a drink gets two thirds of one at the least. Below that the register offers half portions or a larger cup.
A house choice; ``least_share`` in a drink's file sets another."""


@dataclass(frozen=True, slots=True)
class Shelf:
    """What the other files gave, for the drinks to refer to."""

    shop: ShopPart
    pantry: Mapping[str, Ingredient]
    extras: ExtrasPart


@dataclass(frozen=True, slots=True)
class Sizes:
    """The sizes of a drink, and the one that its steps are written for."""

    all: tuple[str, ...]
    reference: str


def read_drink(key: str, root: Table, shelf: Shelf) -> Drink:
    """Read one drink's file; its faults are on the table's page."""
    shop, extras = shelf.shop, shelf.extras
    prices = _prices(root.table("prices"), shelf)
    cold = [level for level in shop.ices if level != HOT]
    ices = root.choices("ices", cold, cold)
    if root.flag("hot", False):
        ices = (*ices, HOT)
    sugars = root.choices("sugars", shop.sugars, shop.sugars)
    sizes = tuple(size for size in shop.sizes if size in prices)
    milks = root.choices("milks", extras.milks, ())
    written_for = Sizes(sizes or tuple(shop.sizes), root.choice("size", shop.sizes))
    drink = Drink(
        id=key,
        name=root.text("name", 40),
        family=root.choice("family", shop.families),
        about=root.text("about", 200),
        prices=prices,
        sizes=sizes,
        sugars=sugars,
        ices=ices,
        shots=root.whole("shots", 0, 10, default=0),
        toppings=root.choices("toppings", extras.toppings, extras.toppings),
        milks=milks,
        without=root.choices("without", shelf.pantry, ()),
        keep=_keep(root.table("keep", needed=False), shelf.pantry),
        default=_usual(
            key,
            root.table("usual"),
            sizes or tuple(shop.sizes),
            sugars or tuple(shop.sugars),
            ices or tuple(shop.ices),
        ),
        reference=written_for.reference,
        vessel=_vessel(root, shop),
        least_share=root.percent("least_share", 10, 100, default=LEAST_SHARE),
        top_up=_top_up(root.table("top_up"), shelf) if root.has("top_up") else None,
        shot_replaces=root.choice("shot_replaces", shelf.pantry) if root.has("shot_replaces") else None,
        steps=tuple(_step(table, shelf, written_for) for table in root.tables("steps", 60)),
    )
    root.close()
    return drink


def _vessel(root: Table, shop: ShopPart) -> str | None:
    if not root.has("vessel"):
        return None
    if not shop.vessels:
        root.fault(
            "vessel", "[vessels.<id>] in shop.toml", "shop.toml has no vessels; accepted: one of them there"
        )
        return None
    return root.choice("vessel", shop.vessels)


def _prices(table: Table, shelf: Shelf) -> dict[str, int]:
    prices = {size: table.money(size, shelf.shop.currency) for size in shelf.shop.sizes if table.has(size)}
    if not prices:
        accepted = "a price for at least one of the sizes " + ", ".join(shelf.shop.sizes)
        table.fault(None, accepted, f"has no price; accepted: {accepted}")
    table.close()
    return prices


def _usual(
    key: str, table: Table, sizes: tuple[str, ...], sugars: tuple[int, ...], ices: tuple[str, ...]
) -> Line:
    line = Line(
        drink=key,
        size=table.choice("size", sizes),
        sugar=table.choice("sugar", sugars),
        ice=table.choice("ice", ices),
    )
    table.close()
    return line


def _keep(table: Table, pantry: Mapping[str, Ingredient]) -> dict[str, str]:
    kept: dict[str, str] = {}
    for key in table:
        reason = table.text(key, 120)
        if key in pantry:
            kept[key] = reason
        else:
            table.fault(
                key,
                "an ingredient of the pantry",
                "is not in pantry.toml; accepted: an ingredient of the pantry",
            )
    return kept


def _top_up(table: Table, shelf: Shelf) -> TopUp:
    tool = table.choice("tool", shelf.shop.tools)
    if shelf.shop.tools and shelf.shop.tools[tool].kind not in ("jug", "jigger"):
        table.fault("tool", "a jug or jigger", "a top-up is poured; accepted: a tool of kind jug or jigger")
    found = TopUp(
        cold=table.choice("cold", shelf.pantry),
        hot=table.choice("hot", shelf.pantry) if table.has("hot") else None,
        to=table.choice("to", TOP_UP_TO, default="fill"),
        station=table.choice("station", shelf.shop.stations),
        tool=tool,
    )
    table.close()
    return found


def _step(table: Table, shelf: Shelf, sizes: Sizes) -> RecipeStep:
    action = table.choice("do", ACTIONS)
    puts_in = action in WITH_INGREDIENT
    what = table.choice("what", shelf.pantry) if puts_in else None
    ingredient = shelf.pantry.get(what) if what else None
    tool = table.choice("tool", shelf.shop.tools) if puts_in and table.has("tool") else None
    usual: Role = "work" if not puts_in else "ice" if ingredient and ingredient.kind == "ice" else "part"
    step = RecipeStep(
        station=table.choice("station", shelf.shop.stations),
        action=action,
        role=table.choice("role", PUT_IN if puts_in else WORK, default=usual),
        when=table.choice("when", WHENS, default="always"),
        ingredient=what,
        by_size=_amounts(table, "amount", tool, shelf, ingredient, sizes) if puts_in else {},
        hot=_amounts(table, "hot", tool, shelf, ingredient, sizes) if puts_in and table.has("hot") else {},
        instead=_instead(table.table("instead", needed=False), shelf) if puts_in else {},
        duration=read_time(table, attended=True),
        words=table.text("words", 160) if table.has("words") else None,
        short=table.text("short", 14) if table.has("short") else None,
    )
    table.close()
    return step


def _amounts(
    table: Table, key: str, tool: str | None, shelf: Shelf, ingredient: Ingredient | None, sizes: Sizes
) -> dict[str, Measured]:
    """An amount as text, which is that of the size the steps are written for; or by size, that one among
    them.
    """
    if not table.holds_table(key):
        return {sizes.reference: read_amount(table, key, tool, shelf.shop, ingredient)}
    inner = table.table(key)
    if not inner.has(sizes.reference):
        accepted = f"an amount for {sizes.reference}, the size that the steps are written for"
        inner.fault(sizes.reference, accepted, f"is missing; accepted: {accepted}")
    found = {
        size: read_amount(inner, size, tool, shelf.shop, ingredient) for size in sizes.all if inner.has(size)
    }
    inner.close()
    return found or {sizes.reference: Measured(next(iter(shelf.shop.tools), ""), 0.0)}


def _instead(table: Table, shelf: Shelf) -> dict[str, str]:
    swaps = {level: table.choice(level, shelf.pantry) for level in shelf.shop.ices if table.has(level)}
    table.close()
    return swaps
