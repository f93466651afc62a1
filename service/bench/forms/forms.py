"""A book's files as forms: every table with its keys, as written, and what each takes."""

from __future__ import annotations

import tomllib
from collections.abc import Collection, Iterator, Mapping
from decimal import Decimal
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import Item

from recipes.reading.locate import line_of, locate
from recipes.reading.reader import MOST_IN_LINE
from service.bench.forms.catalogue import shape_name, shape_of, tables_in
from service.bench.forms.options import sources
from service.bench.forms.shapes import Path
from service.bench.wire import BookFile, Entry, Forms, FormTable, Scalar

TITLES = {"shop.toml": "The shop", "pantry.toml": "Pantry", "extras.toml": "Toppings, milks, shots"}


def forms(texts: Mapping[str, str], wanted: Collection[str] | None = None) -> Forms:
    """The forms of all files, or of those wanted: shop, pantry, extras, the drinks; and the book's options.

    A file that is not TOML has no tables.
    """
    data = {file: _data(text) for file, text in texts.items()}
    order = [
        *(file for file in TITLES if file in texts),
        *sorted(file for file in texts if file not in TITLES),
    ]
    return Forms(
        files=[_file(file, texts[file], data[file]) for file in order if wanted is None or file in wanted],
        sources=sources(data),
    )


def _data(text: str) -> Mapping[str, Any]:
    """A file's tables; none where the reader will not have it, who then tells why."""
    if any(len(line) > MOST_IN_LINE for line in text.split("\n")):
        return {}
    try:
        return tomllib.loads(text, parse_float=Decimal)
    except (RecursionError, ValueError, ArithmeticError):
        return {}


def _file(file: str, text: str, mine: Mapping[str, Any]) -> BookFile:
    title = TITLES.get(file) or str(mine.get("name", file))
    tables = list(_Forms(file, text).tables((), mine)) if mine else []
    return BookFile(file=file, title=title, tables=tables, text=text)


class _Forms:
    """The forms of one file."""

    def __init__(self, file: str, text: str) -> None:
        self.file = file
        self.lines = locate(text)
        try:
            self.written: Any = tomlkit.parse(text)
        except TOMLKitError:
            self.written = None

    def tables(self, path: Path, table: Mapping[str, Any]) -> Iterator[FormTable]:
        """This table and those in it, in the order of the file; then those that could be in it."""
        leaves = {
            key: value
            for key, value in table.items()
            if not isinstance(value, dict) and not _is_tables(value)
        }
        shape = shape_of(self.file, path)
        if leaves or (shape is not None and (path or shape.fields)):
            yield self._table(path, self._title(path, table), leaves)
        for key, value in table.items():
            if isinstance(value, dict):
                yield from self.tables((*path, key), value)
            elif _is_tables(value):
                for place, each in enumerate(value):
                    yield from self.tables((*path, key, place), each)
        for key, inner in tables_in(self.file, path).items():
            if inner.optional and not isinstance(table.get(key), dict):
                yield self._table((*path, key), key.replace("_", " "), None)

    def _table(self, path: Path, title: str, leaves: Mapping[str, Any] | None) -> FormTable:
        """One table as a form; ``leaves`` None when it is not written."""
        return FormTable(
            path=list(path),
            title=title,
            line=line_of(self.lines, path),
            shape=shape_name(self.file, path),
            written=leaves is not None,
            entries=[
                Entry(
                    key=key,
                    value=self._value((*path, key), value),
                    comment=self._comment((*path, key)),
                    line=line_of(self.lines, (*path, key)),
                )
                for key, value in (leaves or {}).items()
            ],
        )

    def _title(self, path: Path, table: Mapping[str, Any]) -> str:
        if path and isinstance(path[-1], int):
            said = " ".join(str(table[key]) for key in ("do", "what") if key in table)
            return f"Step {path[-1] + 1}: {said.replace('_', ' ')}"
        name = table.get("name")
        return name if isinstance(name, str) else str(path[-1] if path else self.file).replace("_", " ")

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
