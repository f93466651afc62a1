"""What a form's field and table are made of."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

Kind = Literal["text", "quantity", "number", "price", "choice", "list", "yes/no"]

Source = Literal[
    "", "stations", "tools", "sizes", "sugars", "ices", "usual ices", "families", "vessels", "pantry",
    "drinks", "toppings", "milks", "allergens", "actions", "kinds", "tool kinds", "roles", "whens",
    "currencies", "rounded", "bumped", "factors", "to", "taste parts", "percents",
]  # fmt: skip
"""Where a field's options, or a table's further keys, come from."""

Path = tuple[str | int, ...]

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
    """One kind of table.

    ``others`` is what keys are that the table does not list (sizes, levels), ``keys`` what those can be.
    ``one`` names one of many of its kind. An ``optional`` table may be left out of its file.
    """

    help: str
    fields: Mapping[str, Field]
    others: Field | None = None
    keys: Source = ""
    one: str = ""
    optional: bool = False


def name(help: str = "its name, as people read it") -> Field:
    """The field of a thing's name."""
    return Field("text", help)


def time(needed: bool = False) -> dict[str, Field]:
    """The fields of how long work takes."""
    return {
        "time": Field("quantity", "how long it takes", needed, '"20 s" or "30 to 60 s"'),
        "hands": Field("yes/no", "whether it needs hands all the while", needed=False),
    }
