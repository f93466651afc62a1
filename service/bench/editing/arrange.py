"""Tables put into another order in a file's text, each with its own comments, byte for byte.

They are those of a list, or those that have ids; or keys of one line each, such as sugar levels.

A table takes with it the comment right above its header and everything down to its last key, a comment right
below that included. What stands apart, after a blank line, is the file's own: it stays where it was.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from itertools import pairwise

from recipes.reading.locate import Path, locate
from service.bench.editing.lines import extent, is_header, trimmed


class CannotArrange(Exception):
    """Raised for tables that are not written under headers, or an order that does not fit them."""


Lines = tuple[str, ...]


def arrange(text: str, path: Path, order: Sequence[int | str]) -> str:
    """``text`` with the list of tables at ``path`` in this order.

    Each member of ``order`` is the place (from 0) where a table stands, or the text of a new one; a place
    that is not named is taken out. Raises CannotArrange.
    """
    lines, located = text.split("\n"), locate(text)
    spans = [extent(lines, located, (*path, place)) for place in _places(located, path)]
    between, tables = _cut(lines, spans)
    places = [each for each in order if isinstance(each, int)]
    if len(set(places)) < len(places) or not set(places) <= set(range(len(tables))):
        raise CannotArrange(f"each place of the list, from 0 to {len(tables) - 1}, at most once")
    return "\n".join(_joined(between, tables, order))


def arrange_named(text: str, path: Path, order: Sequence[str]) -> str:
    """``text`` with the tables, or the keys, that stand by their ids in the table at ``path`` in this order.

    Those that ``order`` does not name follow as they stand. Raises CannotArrange.
    """
    lines, located = text.split("\n"), locate(text)
    written = [str(key[-1]) for key in located if len(key) == len(path) + 1 and key[: len(path)] == path]
    unknown = [id for id in order if id not in written]
    if unknown or len(set(order)) < len(order):
        raise CannotArrange(f"each of {', '.join(written)} at most once")
    spans = [_span(lines, located, (*path, id)) for id in written]
    if all(end <= begin for (_, end), (begin, _) in pairwise(spans)):
        between, pieces = _cut(lines, spans)
        rest = [id for id in written if id not in order]
        arranged = "\n".join(_joined(between, pieces, [written.index(id) for id in (*order, *rest)]))
        # What is written over several lines, or in pieces, is not torn apart: it has to say the same.
        if _says(arranged) == _says(text):
            return arranged
    raise CannotArrange("tables with a header above each, or keys on a line each, one after the other")


def _says(text: str) -> object:
    """What a file says, whatever the order; None where it is not TOML."""
    try:
        return tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError, ValueError):
        return None


def _span(lines: Sequence[str], located: Mapping[Path, int], path: Path) -> tuple[int, int]:
    """The lines that are the own of a table with a header, or of a key on one line."""
    here = located[path] - 1
    return extent(lines, located, path) if is_header(lines[here]) else (here, here + 1)


def _new(text: str) -> Lines:
    return tuple(text.strip("\n").split("\n"))


def _cut(lines: Sequence[str], spans: Sequence[tuple[int, int]]) -> tuple[list[Lines], list[Lines]]:
    """The file cut into what stands before, between and after the pieces at these lines, and those pieces."""
    between: list[Lines] = []
    pieces: list[Lines] = []
    done = 0
    for begin, end in spans:
        between.append(tuple(lines[done:begin]))
        pieces.append(tuple(lines[begin:end]))
        done = end
    return [*between, tuple(lines[done:])], pieces


def _places(located: Mapping[Path, int], path: Path) -> list[int]:
    if path in located and (*path, 0) not in located:
        raise CannotArrange(f"[[{'.'.join(map(str, path))}]], a header above each of its tables")
    place, found = 0, []
    while (*path, place) in located:
        found.append(place)
        place += 1
    return found


def _joined(between: Sequence[Lines], tables: Sequence[Lines], order: Sequence[int | str]) -> list[str]:
    """The tables in their order.

    Those that stay share out the places that they had among themselves, so that what stands between two
    places goes on standing there; a new one comes after a blank line.
    """
    places = sorted(each for each in order if isinstance(each, int))
    lines = _gap(between, 0, places[0] if places else len(tables))
    if not places and order:
        lines = [*trimmed(lines), ""] if any(lines) else []
    left = iter(places)
    last: int | None = None
    for number, each in enumerate(order):
        place = next(left) if isinstance(each, int) else None
        if number > 0:
            lines += [""] if place is None or last is None else _gap(between, last + 1, place)
        lines += _new(each) if isinstance(each, str) else tables[each]
        last = last if place is None else place
    if last is not None:
        lines += _gap(between, last + 1, len(tables))
    return [*trimmed(lines), ""]


def _gap(between: Sequence[Lines], begin: int, end: int) -> list[str]:
    """What stands between two places; of what is left out the comments stay."""
    lines = list(between[begin])
    for piece in between[begin + 1 : end + 1]:
        if any(line.strip() for line in piece):
            lines += piece[1:] if lines[-1:] == [""] and piece[0] == "" else piece
    return lines
