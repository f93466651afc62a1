"""Every key that a book's files may have, as the owner is told of it: its kind, what it is for, its options.

What is accepted in the end is for ``recipes.reader`` to say; this makes a form of it. A key that is not
here still gets a field, by the kind of its value.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

Kind = Literal["text", "quantity", "number", "price", "choice", "list", "yes/no"]

Source = Literal[
    "", "stations", "tools", "sizes", "sugars", "ices", "usual ices", "families", "vessels", "pantry",
    "toppings", "milks", "allergens", "actions", "kinds", "tool kinds", "roles", "whens", "currencies",
    "rounded",
    "factors", "to",
]  # fmt: skip
"""Where a field's options come from."""

Pattern = tuple[str, ...]
"""A table's path with "*" for an id or a number."""


@dataclass(frozen=True, slots=True)
class Field:
    """One key: its kind, what it is for, whether it must be there, an example and its options' source."""

    kind: Kind
    help: str
    needed: bool = True
    example: str = ""
    source: Source = ""


@dataclass(frozen=True, slots=True)
class Shape:
    """One kind of table. ``others`` is what keys are that the table does not list (sizes, levels)."""

    help: str
    fields: Mapping[str, Field]
    others: Field | None = None


def _name(help: str = "its name, as people read it") -> Field:
    return Field("text", help)


def _time(needed: bool = False) -> dict[str, Field]:
    return {
        "time": Field("quantity", "how long it takes", needed, '"20 s" or "30 to 60 s"'),
        "hands": Field("yes/no", "whether it needs hands all the while", needed=False),
    }


_SHOP: dict[Pattern, Shape] = {
    ("shop",): Shape(
        "The shop itself.",
        {
            "name": _name("the shop's name"),
            "town": Field("text", "where it is"),
            "currency": Field("choice", "what prices are in", source="currencies"),
            "time_zone": Field("text", "for the hours on the times page", example='"Europe/Lisbon"'),
            "day_starts": Field("text", "sales before this hour belong to the day before", example='"04:00"'),
            "tolerance": Field(
                "quantity", "a build says so when it is further from the recipe", example='"10 %"'
            ),
            "limit": Field(
                "quantity", "and is refused when it is further than this", needed=False, example='"30 %"'
            ),
            "energy": Field(
                "choice", "whose factors and rounding energy goes by", needed=False, source="factors"
            ),
        },
    ),
    ("tax",): Shape(
        "The tax on a sale.",
        {
            "name": _name(),
            "percent": Field("quantity", "its rate", example='"10 %"'),
            "included": Field("yes/no", "whether prices include it", needed=False),
            "rounded": Field("choice", "once for an order, or on every line", source="rounded"),
        },
    ),
    ("taste",): Shape(
        "How much each squared error weighs when amounts are chosen; left out: the weight of the house.",
        {},
        Field("quantity", "a weight from 0 to 100", example='"1"'),
    ),
    ("stations", "*"): Shape(
        "A place at the counter; the order of the file is the order of the counter.",
        {
            "name": _name(),
            "melt": Field(
                "quantity",
                "how far melting gets there before the cup moves on",
                needed=False,
                example='"100 %"',
            ),
        },
    ),
    ("tools", "*"): Shape(
        "What an amount is measured with.",
        {
            "name": _name(),
            "kind": Field("choice", "what it is; a jug and a jigger are read in ml", source="tool kinds"),
            "one": Field("text", "one of its measures in a word", needed=False, example='"scoop"'),
            "many": Field("text", "several of them in a word", needed=False, example='"scoops"'),
            "holds": Field("quantity", "what one of them holds", needed=False, example='"20 ml"'),
            "smallest": Field("quantity", "the smallest step a hand can measure with it", example='"1/2"'),
        },
    ),
    ("vessels", "*"): Shape(
        "Where a drink is mixed.",
        {"name": _name(), "holds": Field("quantity", "the most it takes", example='"850 ml"')},
    ),
    ("sizes", "*"): Shape(
        "A cup.",
        {
            "name": _name(),
            "line": Field("quantity", "the seal line: the highest fill that still seals", example='"360 ml"'),
            "brim": Field("quantity", "the most it could hold", example='"400 ml"'),
        },
    ),
    ("sugar",): Shape(
        "Sugar levels: per cent of the sweetener that a recipe adds, and the customer's word for it.",
        {},
        Field("text", "the customer's word for this level", example='"half sugar"'),
    ),
    ("ice", "*"): Shape(
        "An ice level.",
        {
            "name": _name("the customer's word for it"),
            "cubes": Field("quantity", "how much of the recipe's cubes", example='"75 %"'),
        },
    ),
    ("families", "*"): Shape("A heading on the register.", {"name": _name()}),
}

_PANTRY: dict[Pattern, Shape] = {
    ("*",): Shape(
        "An ingredient as the brand in use measures.",
        {
            "name": _name(),
            "short": Field("text", "its name in a cell of the bar sheet, at most 14 characters"),
            "kind": Field("choice", "what it is, as far as the rules care", source="kinds"),
            "brand": Field("text", "the brand in use", needed=False),
            "density": Field(
                "quantity", "mass of a millilitre as scooped, pumped or poured", example='"0.50 g/ml"'
            ),
            "body": Field(
                "quantity", "density of one piece of a topping or of ice", needed=False, example='"1.15 g/ml"'
            ),
            "sugars": Field("quantity", "share of the mass", example='"38 %"'),
            "dry": Field("quantity", "what is left without its water, share of the mass", example='"96 %"'),
            "fat": Field("quantity", "share of the mass, as on the label", needed=False, example='"12 %"'),
            "carbohydrate": Field(
                "quantity",
                "share of the mass, sugars included, without fibre",
                needed=False,
                example='"70 %"',
            ),
            "protein": Field("quantity", "share of the mass", needed=False, example='"4 %"'),
            "fibre": Field("quantity", "share of the mass", needed=False, example='"2 %"'),
            "caffeine": Field("quantity", "in a gram of it", needed=False, example='"0.2 mg/g"'),
            "energy": Field(
                "quantity", "of 100 g, as on the label", needed=False, example='"1720 kJ/411 kcal"'
            ),
            "finer": Field(
                "list",
                "tools that may add what the recipe's own tool cannot measure",
                needed=False,
                source="tools",
            ),
            "allergens": Field("list", "what must be told, by law", needed=False, source="allergens"),
            "serving": Field("quantity", "how warm it stands at the bar", example='"4 °C"'),
            "hot": Field(
                "quantity", "how warm it goes into a hot drink, if heated", needed=False, example='"65 °C"'
            ),
            "price": Field("quantity", "what it costs you", example='"9.50 EUR/kg" or "1.20 EUR/l"'),
            "keep": Field("quantity", "how long it keeps once opened or made", needed=False, example='"4 h"'),
        },
    )
}

_EXTRAS: dict[Pattern, Shape] = {
    ("toppings",): Shape(
        "Toppings on offer.",
        {
            "most": Field("number", "how many go into one cup at most"),
            "station": Field("choice", "where they go into the cup", source="stations"),
        },
    ),
    ("toppings", "choices", "*"): Shape(
        "A topping on offer.",
        {
            "name": _name("the customer's word for it"),
            "ingredient": Field("choice", "what it is in the pantry", source="pantry"),
            "portion": Field("quantity", "a full portion", example='"1 ladle"'),
            "price": Field("price", "a full portion's price"),
            "half_price": Field("price", "a half portion's price; left out: half", needed=False),
            "hot": Field("yes/no", "whether it may go into a hot drink", needed=False),
            "choking": Field("yes/no", "whether small children can choke on it", needed=False),
        },
    ),
    ("milks", "*"): Shape(
        "A milk on offer.",
        {
            "name": _name("the customer's word for it"),
            "ingredient": Field("choice", "what it is in the pantry", source="pantry"),
            "price": Field("price", "what it costs more than the recipe's milk", needed=False),
        },
    ),
    ("shot",): Shape(
        "An extra shot.",
        {
            "ingredient": Field("choice", "what it is in the pantry", source="pantry"),
            "tool": Field("choice", "what pulls it", source="tools"),
            "station": Field("choice", "where it is pulled", source="stations"),
            **_time(),
            "crema": Field("quantity", "the foam that it carries", example='"10 ml"'),
            "collapse": Field(
                "quantity", "the share of it gone at hand-over", needed=False, example='"50 %"'
            ),
            "price": Field("price", "what one costs"),
        },
    ),
}

_DRINK: dict[Pattern, Shape] = {
    (): Shape(
        "The drink and what may be asked of it.",
        {
            "name": _name(),
            "family": Field("choice", "its heading on the register", source="families"),
            "about": Field("text", "what it is, in a sentence"),
            "size": Field("choice", "the size that the steps are written for", source="sizes"),
            "sugars": Field("list", "sugar levels offered; left out: all", needed=False, source="sugars"),
            "ices": Field("list", "ice levels offered; left out: all", needed=False, source="ices"),
            "hot": Field("yes/no", "whether it can be had hot", needed=False),
            "shots": Field("number", "extra shots, at most", needed=False),
            "shot_replaces": Field(
                "choice", "what makes way for an extra shot", needed=False, source="pantry"
            ),
            "toppings": Field("list", "toppings offered; left out: all", needed=False, source="toppings"),
            "milks": Field("list", "milks that can be swapped in", needed=False, source="milks"),
            "without": Field("list", "what may be left out", needed=False, source="pantry"),
            "vessel": Field(
                "choice", "where it is mixed; left out: in its cup", needed=False, source="vessels"
            ),
            "least_share": Field(
                "quantity", "how far it may shrink under toppings", needed=False, example='"65 %"'
            ),
        },
    ),
    ("prices",): Shape("Prices by size; a size without one is not offered.", {}, Field("price", "its price")),
    ("usual",): Shape(
        "How it comes when nothing is said.",
        {
            "size": Field("choice", "its usual size", source="sizes"),
            "sugar": Field("choice", "its usual sugar level", source="sugars"),
            "ice": Field("choice", "its usual ice level, or hot", source="usual ices"),
        },
    ),
    ("keep",): Shape(
        "What cannot be left out, by ingredient.",
        {},
        Field("text", "what the drink would lose without it", example='"it would be a milk tea"'),
    ),
    ("top_up",): Shape(
        "What stands in for ice that is left out.",
        {
            "cold": Field("choice", "with what, in a cold drink", source="pantry"),
            "hot": Field("choice", "with what, in a hot drink", needed=False, source="pantry"),
            "to": Field(
                "choice", "how far: to the usual fill, or at equal strength", needed=False, source="to"
            ),
            "station": Field("choice", "where", source="stations"),
            "tool": Field("choice", "measured with what", source="tools"),
        },
    ),
    ("steps", "*"): Shape(
        "A step of the recipe.",
        {
            "station": Field("choice", "where", source="stations"),
            "do": Field("choice", "what hands do", source="actions"),
            "what": Field("choice", "what goes in", needed=False, source="pantry"),
            "amount": Field("quantity", "how much", needed=False, example='"2 scoops", "14 ml" or "18 g"'),
            "tool": Field(
                "choice", "measured with what; left out: what the words say", needed=False, source="tools"
            ),
            "role": Field("choice", "what it is for, where modifiers ask", needed=False, source="roles"),
            "when": Field("choice", "only iced, only hot, or always", needed=False, source="whens"),
            **_time(),
            "words": Field("text", "your own wording of it", needed=False),
            "short": Field("text", "its label in a cell, at most 14 characters", needed=False),
        },
    ),
    ("steps", "*", "instead"): Shape(
        "Another ingredient at an ice level.",
        {},
        Field("choice", "what goes in at this ice level", needed=False, source="pantry"),
    ),
}

FILES: Mapping[str, Mapping[Pattern, Shape]] = {
    "shop.toml": _SHOP,
    "pantry.toml": _PANTRY,
    "extras.toml": _EXTRAS,
}

Path = tuple[str | int, ...]


def shapes(file: str) -> Mapping[Pattern, Shape]:
    """The shapes of a file's tables."""
    return FILES.get(file, _DRINK)


def shape_of(file: str, path: Path) -> Shape | None:
    """The shape of the table at a path, if it is known."""
    for pattern, shape in shapes(file).items():
        if len(pattern) == len(path) and all(
            want in ("*", part) for want, part in zip(pattern, path, strict=True)
        ):
            return shape
    return None


def field_of(file: str, path: Path) -> Field | None:
    """The field at the path of a key, if it is known."""
    shape = shape_of(file, path[:-1])
    if shape is None:
        return None
    return shape.fields.get(str(path[-1]), shape.others)


def repeats(file: str, path: Path) -> bool:
    """Whether the table at a path is one of many of its kind."""
    return any(
        pattern[-1:] == ("*",) and len(pattern) == len(path) and shape_of(file, path) is shape
        for pattern, shape in shapes(file).items()
    )
