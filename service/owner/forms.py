"""A book's files as forms: every table with its keys, as written, and what each takes."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from decimal import Decimal
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import Item

from recipes.reading.locate import line_of, locate
from service.owner.catalogue import Field, Kind, Path, field_of, repeats, shape_of
from service.owner.options import Data, options
from service.wire_owner import BookFile, Entry, FormTable, Scalar

TITLES = {"shop.toml": "The shop", "pantry.toml": "Pantry", "extras.toml": "Toppings, milks, shots"}


def forms(files: Mapping[str, str]) -> list[BookFile]:
    """The forms of all files: shop, pantry, extras, the drinks. A file that is not TOML has no tables."""
    data = {file: _data(text) for file, text in files.items()}
    order = [
        *(file for file in TITLES if file in files),
        *sorted(file for file in files if file not in TITLES),
    ]
    return [_file(file, files[file], data) for file in order]


def _data(text: str) -> Mapping[str, Any]:
    try:
        return tomllib.loads(text, parse_float=Decimal)
    except (tomllib.TOMLDecodeError, RecursionError, ValueError):
        return {}


def _file(file: str, text: str, data: Data) -> BookFile:
    mine = data[file]
    title = TITLES.get(file) or str(mine.get("name", file))
    tables = list(_Forms(file, text, data).tables((), mine)) if mine else []
    return BookFile(file=file, title=title, tables=tables, text=text)


class _Forms:
    """The forms of one file."""

    def __init__(self, file: str, text: str, data: Data) -> None:
        self.file, self.data = file, data
        self.lines = locate(text)
        try:
            self.written: Any = tomlkit.parse(text)
        except TOMLKitError:
            self.written = None

    def tables(self, path: Path, table: Mapping[str, Any]) -> Iterator[FormTable]:
        """This table and those in it, in the order of the file."""
        leaves = {
            key: value
            for key, value in table.items()
            if not isinstance(value, dict) and not _is_tables(value)
        }
        shape = shape_of(self.file, path)
        if leaves or (shape is not None and (path or shape.fields)):
            yield FormTable(
                path=list(path),
                title=self._title(path, table),
                help=shape.help if shape else "",
                line=line_of(self.lines, path),
                repeats=repeats(self.file, path),
                entries=list(self._entries(path, leaves)),
            )
        for key, value in table.items():
            if isinstance(value, dict):
                yield from self.tables((*path, key), value)
            elif _is_tables(value):
                for place, each in enumerate(value):
                    yield from self.tables((*path, key, place), each)

    def _title(self, path: Path, table: Mapping[str, Any]) -> str:
        if path and isinstance(path[-1], int):
            said = " ".join(str(table[key]) for key in ("do", "what") if key in table)
            return f"Step {path[-1] + 1}: {said.replace('_', ' ')}"
        name = table.get("name")
        return name if isinstance(name, str) else str(path[-1] if path else self.file).replace("_", " ")

    def _entries(self, path: Path, leaves: Mapping[str, Any]) -> Iterator[Entry]:
        shape = shape_of(self.file, path)
        missing = [key for key in (shape.fields if shape else {}) if key not in leaves]
        for key in (*leaves, *missing):
            here = (*path, key)
            field = field_of(self.file, here) or Field(_kind(leaves.get(key)), "", needed=False)
            offered = options(field.source, self.data)
            yield Entry(
                path=list(here),
                key=key,
                value=self._value(here, leaves[key]) if key in leaves else None,
                kind=field.kind,
                help=field.help,
                accepted=_accepted(field),
                options=offered,
                needed=field.needed,
                comment=self._comment(here) if key in leaves else "",
                line=line_of(self.lines, here) if key in leaves else None,
            )

    def _value(self, path: Path, value: object) -> Scalar:
        if isinstance(value, bool):
            return value
        if isinstance(value, list):
            return [str(each) for each in value]
        if isinstance(value, str):
            return value
        item = self._item(path)
        return item.as_string() if item is not None else str(value)

    def _comment(self, path: Path) -> str:
        item = self._item(path)
        return item.trivia.comment.lstrip("# ").strip() if item is not None else ""

    def _item(self, path: Path) -> Item | None:
        """What stands in the file at a path, as written."""
        here = self.written
        for part in path:
            if here is None:
                return None
            if isinstance(part, int) or part in here:
                here = here.item(part) if hasattr(here, "item") and not isinstance(part, int) else here[part]
            else:
                return None
        return here if isinstance(here, Item) else None


def _is_tables(value: object) -> bool:
    return isinstance(value, list) and bool(value) and all(isinstance(each, dict) for each in value)


def _kind(value: object) -> Kind:
    """The kind of a key that the catalogue does not know, by its value."""
    if isinstance(value, bool):
        return "yes/no"
    if isinstance(value, list):
        return "list"
    return "number" if isinstance(value, (int, Decimal)) else "text"


def _accepted(field: Field) -> str:
    """What a field takes, in words."""
    words = {
        "text": "a line of text",
        "quantity": "a number with its unit",
        "number": "a whole number",
        "price": "a price such as 4.20",
        "choice": "one of these",
        "list": "any of these",
        "yes/no": "yes or no",
    }[field.kind]
    return f"{words}, such as {field.example}" if field.example else words
