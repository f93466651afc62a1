"""What the order of the menu has to follow when drinks come and go. Pure."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from typing import Any

SHOP = "shop.toml"

Path = tuple[str, ...]


def listings(before: Mapping[str, str], after: Mapping[str, str]) -> Iterator[tuple[Path, list[str] | None]]:
    """The lists of drinks in shop.toml that name a drink which edits took off, or out of the family.

    Each with the path of its key and what it holds without those; None where nothing is left of it. What an
    owner has written wrong by hand is left for the book to say.
    """
    if all(before.get(name) == after.get(name) for name in {*before, *after} if name != SHOP):
        return
    families = _table(_read(after.get(SHOP, "")), "families")
    for family, table in families.items():
        listed = table.get("drinks") if isinstance(table, Mapping) else None
        if not isinstance(listed, list) or not all(isinstance(id, str) for id in listed):
            continue
        kept = [id for id in listed if not _left(before, after, id, family)]
        if kept != listed:
            yield ("families", family, "drinks"), kept or None


def _left(before: Mapping[str, str], after: Mapping[str, str], id: str, family: str) -> bool:
    """Whether a drink was there, of this family, and is not any more."""
    file = f"drinks/{id}.toml"
    if _read(before.get(file, "")).get("family") != family:
        return False
    return file not in after or _read(after[file]).get("family", family) != family


def _read(text: str) -> Mapping[str, Any]:
    try:
        return tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError, ValueError):
        return {}


def _table(data: Mapping[str, Any], key: str) -> Mapping[str, Any]:
    found = data.get(key)
    return found if isinstance(found, Mapping) else {}
