"""Amounts by size in a drink's file: one cell written or taken out, the rest of the file as it was.

An amount for the reference size alone is text, ``amount = "2 scoops"``; with more sizes it is a table on one
line, ``amount = { small = "1½ scoops", medium = "2 scoops" }``, in the order of the sizes in shop.toml.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from typing import Any

import tomlkit
from tomlkit.items import InlineTable, Item, String, Table

from recipes.reading.locate import Path, locate
from service.bench.editing.insert import put_key

KEYS = ("amount", "hot")
"""The keys of a step that hold an amount by size."""


class NotACell(Exception):
    """Raised for an amount that is written in a way which cells cannot change; says what is accepted."""


def is_cell(file: str, path: Path) -> bool:
    """Whether a path leads to the amount of a step at one size."""
    shape = (len(path) == 4, path[:1] == ("steps",), len(path) == 4 and path[2] in KEYS)
    return file.startswith("drinks/") and all(shape) and isinstance(path[1], int)


def written(value: object, reference: str) -> dict[str, str]:
    """The cells of an amount as written in TOML: text is that of the reference size."""
    if isinstance(value, Mapping):
        return {str(size): str(each) for size, each in value.items()}
    return {} if value is None else {reference: str(value)}


def put_cell(files: Mapping[str, str], file: str, path: Path, value: str | None) -> str | None:
    """The file's text with one cell written, or taken out with None.

    None where the step or its amount stands under a header of its own, or the step is not there: that is
    an edit like any other. Raises NotACell.
    """
    text = files[file]
    document: Any = tomlkit.parse(text)
    reference = document.get("size")
    steps = document.get("steps", [])
    _, place, key, size = path
    if not isinstance(place, int) or not 0 <= place < len(steps) or not isinstance(reference, str):
        return None
    step: Any = steps[place]
    present = step.get(key)
    if isinstance(present, Table) or not isinstance(present, String | InlineTable | None):
        return None
    cells = written(present, reference)
    if value is None:
        if size not in cells:
            raise NotACell(f"a size that is written: {', '.join(cells) or 'none is'}")
        if key == "amount" and size == reference:
            raise NotACell(
                f"an amount: all others follow from {reference}, the size the steps are written for"
            )
        del cells[str(size)]
    else:
        cells[str(size)] = value
    return _rewritten(text, document, step, (*path[:2],), str(key), _ordered(files, cells), reference)


def _rewritten(
    text: str,
    document: tomlkit.TOMLDocument,
    step: Any,  # noqa: ANN401  (a table of tomlkit)
    path: Path,
    key: str,
    cells: Mapping[str, str],
    reference: str,
) -> str:
    present = step.get(key)
    if not cells:
        del step[key]
        return tomlkit.dumps(document)
    if isinstance(present, InlineTable) and list(present) == list(cells) and set(cells) != {reference}:
        for size, amount in cells.items():
            if present[size] != amount:
                present[size] = tomlkit.string(amount)
        return tomlkit.dumps(document)
    item = _item(cells, reference)
    if present is not None:
        step[key] = item
        return tomlkit.dumps(document)
    return _put_in(text, path, key, f"{key} = {item.as_string()}")


def _put_in(text: str, path: Path, key: str, line: str) -> str:
    """The text with the key in it: what is put in hot right below what is put in iced, else at the end."""
    beside = locate(text).get((*path, "amount")) if key == "hot" else None
    if beside is None:
        return put_key(text, path, key, line)
    lines = text.split("\n")
    return "\n".join([*lines[:beside], line, *lines[beside:]])


def _item(cells: Mapping[str, str], reference: str) -> Item:
    if set(cells) == {reference}:
        return tomlkit.string(cells[reference])
    inner = ", ".join(
        f"{_key(size)} = {tomlkit.string(amount).as_string()}" for size, amount in cells.items()
    )
    return tomlkit.value(f"{{ {inner} }}")


def _key(size: str) -> str:
    """A size's id as a key; what no id can be, in quotes."""
    return size if size.isascii() and size.replace("_", "a").isalnum() else tomlkit.string(size).as_string()


def _ordered(files: Mapping[str, str], cells: Mapping[str, str]) -> dict[str, str]:
    """Cells in the order of the cups, as far as that is known."""
    order = [size for size in _sizes(files) if size in cells]
    return {size: cells[size] for size in (*order, *(size for size in cells if size not in order))}


def _sizes(files: Mapping[str, str]) -> Iterator[str]:
    try:
        found = tomllib.loads(files.get("shop.toml", "")).get("sizes", {})
    except (tomllib.TOMLDecodeError, RecursionError, ValueError):
        found = {}
    yield from found if isinstance(found, Mapping) else ()
