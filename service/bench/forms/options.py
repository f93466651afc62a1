"""The options of forms' fields, read from the book's files as they are written (a faulty book too)."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping, Sequence
from typing import Any, get_args

from recipes.actions import ACTIONS
from recipes.allergens import TOLD
from recipes.book import Kind, Role, Taste, TopUpTo, When
from recipes.hands import ToolKind
from recipes.model import HOT
from recipes.reading.currencies import CURRENCIES
from recipes.reading.shop import BUMPED, FACTORS, ROUNDED
from service.bench.forms.shapes import Pattern, Source
from service.bench.wire import Option, OptionSource

Data = Mapping[str, Mapping[str, Any]]
"""The files' TOML by file name."""


_PLACES: dict[Source, tuple[str, Pattern]] = {
    "stations": ("shop.toml", ("stations",)),
    "tools": ("shop.toml", ("tools",)),
    "sizes": ("shop.toml", ("sizes",)),
    "sugars": ("shop.toml", ("sugar",)),
    "ices": ("shop.toml", ("ice",)),
    "usual ices": ("shop.toml", ("ice",)),
    "families": ("shop.toml", ("families",)),
    "vessels": ("shop.toml", ("vessels",)),
    "pantry": ("pantry.toml", ()),
    "toppings": ("extras.toml", ("toppings", "choices")),
    "milks": ("extras.toml", ("milks",)),
}
"""The sources that are a book's own tables, and where those stand."""

_FIXED: dict[Source, Sequence[str]] = {
    "actions": list(ACTIONS),
    "allergens": list(TOLD),
    "kinds": get_args(Kind),
    "tool kinds": get_args(ToolKind),
    "roles": get_args(Role),
    "whens": get_args(When),
    "to": get_args(TopUpTo),
    "currencies": list(CURRENCIES),
    "rounded": list(ROUNDED),
    "factors": list(FACTORS),
    "bumped": list(BUMPED),
    "taste parts": [each.name for each in dataclasses.fields(Taste)],
}


def sources(data: Data) -> list[OptionSource]:
    """Every source of options, those of the book in the book's order."""
    fixed = [
        OptionSource(name=source, file="", path=[], options=[Option(value=word, name=word) for word in words])
        for source, words in _FIXED.items()
    ]
    named = [
        OptionSource(
            name=source, file=file, path=list(path), options=_options(source, data.get(file, {}), path)
        )
        for source, (file, path) in _PLACES.items()
    ]
    return [*fixed, *named, OptionSource(name="drinks", file="", path=[], options=_drinks(data))]


def _drinks(data: Data) -> list[Option]:
    """The drinks by their files' names, which are their ids."""
    files = sorted(file for file in data if file.startswith("drinks/"))
    ids = [file.removeprefix("drinks/").removesuffix(".toml") for file in files]
    return [Option(value=id, name=_name(id, data[file])) for id, file in zip(ids, files, strict=True)]


def _options(source: Source, found: Mapping[str, Any], path: Pattern) -> list[Option]:
    for part in path:
        found = _table(found, part)
    more = [Option(value=HOT, name=HOT)] if source == "usual ices" else []
    return [*(Option(value=id, name=_name(id, entry)) for id, entry in found.items()), *more]


def _table(data: Mapping[str, Any], key: str) -> Mapping[str, Any]:
    found = data.get(key)
    return found if isinstance(found, Mapping) else {}


def _name(id: str, entry: object) -> str:
    if isinstance(entry, str):
        return entry
    name = entry.get("name") if isinstance(entry, Mapping) else None
    return name if isinstance(name, str) else id
