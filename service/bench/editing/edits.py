"""Edits to a book's files that keep everything else as the owner wrote it: comments, order, spacing."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any

import tomlkit
from tomlkit.container import OutOfOrderTableProxy
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import AoT, Array, Bool, Float, InlineTable, Integer, Item, String, Table, Trivia

from recipes.reading.faults import Fault
from recipes.reading.reader import SHARED, is_book_file
from recipes.reading.table import ID
from service.bench.editing.arrange import CannotArrange, arrange, arrange_named
from service.bench.editing.cells import NotACell, is_cell, put_cell
from service.bench.editing.insert import has_header, put_key, put_table, take_table
from service.bench.editing.menu_order import listings
from service.bench.forms.catalogue import field_of
from service.bench.wire import Edit, Scalar

_NUMBER = re.compile(r"-?(?:0|[1-9]\d{0,9})(?:\.\d{1,9})?")
NUMBER = "a plain number such as 2 or 4.60"

# A tablet's number pad may have a comma and no point. Three digits after one could be thousands: left alone.
_DECIMAL_COMMA = re.compile(r"(?<=\d),(?=\d{1,2}(?!\d))")


class EditRefused(Exception):
    """Raised for edits that cannot be made, whatever the book says to them."""

    def __init__(self, fault: Fault) -> None:
        super().__init__(str(fault))
        self.fault = fault


def apply(files: Mapping[str, str], edits: Sequence[Edit]) -> dict[str, str]:
    """The files after all edits, one after the other. Raises EditRefused; nothing is checked by the book.

    A drink that goes, or goes to another family, leaves the order of its family's drinks by itself.
    """
    edited = dict(files)
    for edit in edits:
        if not is_book_file(edit.file):
            raise _refused(edit, edit.file, f"{', '.join(SHARED)} or drinks/<id>.toml ({ID})")
        if not edit.path:
            _whole(edited, edit)
        elif isinstance(edit.value, list) and _is_order(edited, edit, edit.value):
            edited[edit.file] = _arranged(edited, edit, edit.value)
        else:
            edited[edit.file] = _one(edited, edit)
    for path, listed in listings(files, edited):
        edited["shop.toml"] = _one(edited, Edit(file="shop.toml", path=list(path), value=listed))
    return edited


def changed(before: Mapping[str, str], after: Mapping[str, str]) -> list[str]:
    """The names of the files that differ."""
    return sorted(file for file in {*before, *after} if before.get(file) != after.get(file))


def _whole(edited: dict[str, str], edit: Edit) -> None:
    if edit.value is None:
        edited.pop(edit.file, None)
    elif isinstance(edit.value, str):
        edited[edit.file] = edit.value.replace("\r\n", "\n")
    else:
        raise _refused(edit, "no text", "the text of the whole file, or null to remove it")


def _text(edited: Mapping[str, str], edit: Edit) -> str:
    """The text of the edit's file."""
    if edit.file not in edited:
        raise _refused(edit, edit.file, f"one of {', '.join(edited)}")
    return edited[edit.file]


def _document(text: str, edit: Edit) -> tomlkit.TOMLDocument:
    try:
        return tomlkit.parse(text)
    except TOMLKitError as problem:
        raise _refused(
            edit, "a file that is not TOML", f"TOML; mend the file's text first ({problem})"
        ) from None


def _is_order(edited: Mapping[str, str], edit: Edit, value: Sequence[object]) -> bool:
    """Whether a list is the order of tables, not a key's own: of ids, or empty, where tables stand."""
    if value and not all(isinstance(each, str) for each in value):
        return True
    here: Any = _document(_text(edited, edit), edit)
    for part in edit.path:
        here = here.get(part) if hasattr(here, "get") else None
    return isinstance(here, (Table, OutOfOrderTableProxy) if value else AoT)


def _arranged(
    edited: Mapping[str, str], edit: Edit, order: Sequence[int | str | Mapping[str, Scalar]]
) -> str:
    """The file's text with tables in another order: those of a list, or those with the ids named."""
    text = _text(edited, edit)
    _document(text, edit)
    if not all(isinstance(part, str) for part in edit.path):
        raise _refused(edit, str(edit.path), "a list of the file itself, such as steps")
    ids = [each for each in order if isinstance(each, str)]
    try:
        if ids and len(ids) == len(order):
            return arrange_named(text, tuple(edit.path), ids)
        wanted = [
            _headed(edit, each, of_list=True) if isinstance(each, Mapping) else int(each) for each in order
        ]
        return arrange(text, tuple(edit.path), wanted)
    except CannotArrange as problem:
        raise _refused(edit, str(edit.path[-1]), str(problem)) from None


def _headed(edit: Edit, values: Mapping[str, Scalar], of_list: bool = False) -> str:
    """A new table as text, its header above it."""
    header = ".".join(str(part) for part in edit.path)
    at = edit.model_copy(update={"path": [*edit.path, 0]}) if of_list else edit
    return f"{f'[[{header}]]' if of_list else f'[{header}]'}\n{_table(at, values).as_string()}"


def _one(edited: Mapping[str, str], edit: Edit) -> str:
    text = _text(edited, edit)
    document = _document(text, edit)
    if is_cell(edit.file, tuple(edit.path)) and isinstance(edit.value, str | None):
        found = _cell(edited, edit, edit.value)
        if found is not None:
            return found
    try:
        holder = _holder(document, edit)
        written = _in_text(text, holder, edit)
        if written is not None:
            return written
        _put(holder, edit)
    except (TOMLKitError, TypeError, IndexError, KeyError, ValueError) as problem:
        raise _refused(edit, str(edit.value), f"a key of this file ({problem})") from None
    return tomlkit.dumps(document)


def _cell(edited: Mapping[str, str], edit: Edit, value: str | None) -> str | None:
    """The text with a step's amount at one size changed; None where that is an edit like any other."""
    try:
        return put_cell(edited, edit.file, tuple(edit.path), None if value is None else _pointed(value))
    except NotACell as problem:
        raise _refused(edit, "nothing" if value is None else value, str(problem)) from None


def _in_text(text: str, holder: Any, edit: Edit) -> str | None:  # noqa: ANN401  (a container of tomlkit)
    """The text where tables come and go, and new keys come, under headers; None for every other edit."""
    *above, key = edit.path
    path = tuple(above)
    if not isinstance(key, str) or not hasattr(holder, "keys"):
        return None
    if isinstance(edit.value, dict) and key not in holder:
        return put_table(text, (*path, key), _headed(edit, edit.value))
    there = holder.get(key)
    if edit.value is None and isinstance(there, Table) and has_header(text, (*path, key)):
        return take_table(text, (*path, key))
    if not isinstance(edit.value, dict | None) and there is None and has_header(text, path):
        plain = [str(each) for each in edit.value] if isinstance(edit.value, list) else edit.value
        line = tomlkit.table()
        line.append(key, _item(edit, tuple(edit.path), plain, None))
        return put_key(text, path, key, line.as_string())
    return None


def _holder(document: Any, edit: Edit) -> Any:  # noqa: ANN401  (a container of tomlkit)
    """The table or list that holds the edit's key; tables on the way are made when missing."""
    here = document
    for place, part in enumerate(edit.path[:-1]):
        if isinstance(part, int):
            if not isinstance(here, AoT) or not 0 <= part < len(here):
                raise _refused(edit, str(part), "a place in the list, from 0")
        elif not hasattr(here, "keys"):
            raise _refused(edit, part, "a table")
        elif part not in here:
            if edit.value is None:
                raise _refused(edit, part, f"one of {', '.join(here)}")
            inside_a_list = any(isinstance(each, int) for each in edit.path[:place])
            here[part] = tomlkit.inline_table() if inside_a_list else tomlkit.table()
        here = here[part]
    return here


def _put(holder: Any, edit: Edit) -> None:  # noqa: ANN401  (a container of tomlkit)
    key, value = edit.path[-1], edit.value
    if isinstance(key, int) or not hasattr(holder, "keys"):
        raise _refused(edit, str(key), "a key of a table")
    if value is None:
        if key not in holder:
            raise _refused(edit, key, f"one of {', '.join(holder)}")
        del holder[key]
    elif isinstance(value, dict):
        raise _refused(edit, key, "an id that is not there yet")
    else:
        present = holder.item(key) if key in holder else None
        if isinstance(present, (Table, AoT, InlineTable)):
            raise _refused(edit, key, "a key, not a table")
        plain = [str(each) for each in value] if isinstance(value, list) else value
        holder[key] = _item(edit, (*edit.path,), plain, present)


def _table(edit: Edit, values: Mapping[str, Scalar]) -> Table:
    table = tomlkit.table()
    for key, value in values.items():
        table.append(key, _item(edit, (*edit.path, key), value, None))
    return table


def _item(edit: Edit, path: tuple[str | int, ...], value: Scalar, present: Item | None) -> Item:
    """A value as TOML: of the type that stands there, else of the type that the key is known to have."""
    field = field_of(edit.file, path)
    if isinstance(present, Bool) or (present is None and field is not None and field.kind == "yes/no"):
        if not isinstance(value, bool):
            raise _refused(edit, str(value), "true or false")
        return tomlkit.item(value)
    if isinstance(present, Array) or (present is None and field is not None and field.kind == "list"):
        if not isinstance(value, list):
            raise _refused(edit, str(value), "a list")
        numbers = field is not None and field.source == "sugars"
        return tomlkit.item([int(each) if numbers and each.isdecimal() else each for each in value])
    if isinstance(value, list):
        raise _refused(edit, str(value), "a text, not a list")
    if isinstance(value, bool):
        return tomlkit.item(value)
    usual = field is not None and (field.kind in ("price", "number") or field.source == "sugars")
    if isinstance(present, (Integer, Float)) or (not isinstance(present, String) and usual):
        return _number(edit, value)
    return tomlkit.string(_pointed(value) if field is not None and field.kind == "quantity" else value)


def _pointed(text: str) -> str:
    """A figure with the point that the book's files have, "2,5 scoops" as "2.5 scoops"."""
    return _DECIMAL_COMMA.sub(".", text)


def _number(edit: Edit, text: str) -> Item:
    """A number written just as it was typed, a decimal comma as a point."""
    text = _pointed(text)
    if not _NUMBER.fullmatch(text):
        raise _refused(edit, text, NUMBER)
    if "." in text:
        return Float(float(text), Trivia(), text)
    return Integer(int(text), Trivia(), text)


def _refused(edit: Edit, found: str, accepted: str) -> EditRefused:
    key = ".".join(str(part + 1) if isinstance(part, int) else part for part in edit.path) or "(file)"
    shown = found if len(found) <= 60 else found[:59] + "…"
    return EditRefused(Fault(edit.file, 1, key, shown, accepted, f"is {shown!r}; accepted: {accepted}"))
