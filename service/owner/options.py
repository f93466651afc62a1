"""The options of a form's field, read from the book's files as they are written (a faulty book too)."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, get_args

from recipes.actions import ACTIONS
from recipes.allergens import TOLD
from recipes.book import Kind, Role, ToolKind, TopUpTo, When
from recipes.model import HOT
from recipes.reading.shop import FACTORS, MINOR_DIGITS, ROUNDED
from service.owner.catalogue import Source
from service.wire_owner import Option

Data = Mapping[str, Mapping[str, Any]]
"""The files' TOML by file name."""


def options(source: Source, data: Data) -> list[Option]:
    """The options of a source, in the order of the book."""
    shop, extras = data.get("shop.toml", {}), data.get("extras.toml", {})
    toppings = _table(extras, "toppings")
    fixed: dict[str, list[str]] = {
        "actions": list(ACTIONS),
        "allergens": list(TOLD),
        "kinds": list(get_args(Kind)),
        "tool kinds": list(get_args(ToolKind)),
        "roles": list(get_args(Role)),
        "whens": list(get_args(When)),
        "to": list(get_args(TopUpTo)),
        "currencies": list(MINOR_DIGITS),
        "rounded": list(ROUNDED),
        "factors": list(FACTORS),
    }
    if source in fixed:
        return [Option(value=word, name=word) for word in fixed[source]]
    named: dict[str, Mapping[str, Any]] = {
        "stations": _table(shop, "stations"),
        "tools": _table(shop, "tools"),
        "sizes": _table(shop, "sizes"),
        "sugars": _table(shop, "sugar"),
        "ices": _table(shop, "ice"),
        "usual ices": {**_table(shop, "ice"), HOT: HOT},
        "families": _table(shop, "families"),
        "vessels": _table(shop, "vessels"),
        "pantry": data.get("pantry.toml", {}),
        "toppings": _table(toppings, "choices"),
        "milks": _table(extras, "milks"),
    }
    return [Option(value=id, name=_name(id, entry)) for id, entry in named.get(source, {}).items()]


def _table(data: Mapping[str, Any], key: str) -> Mapping[str, Any]:
    found = data.get(key)
    return found if isinstance(found, Mapping) else {}


def _name(id: str, entry: object) -> str:
    if isinstance(entry, str):
        return entry
    name = entry.get("name") if isinstance(entry, Mapping) else None
    return name if isinstance(name, str) else id
