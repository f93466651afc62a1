"""The tables of a list put into another order in a file's text, each with its own comments, byte for byte.

A table takes with it the comment right above its header and everything down to its last key, a comment right
below that included. What stands apart, after a blank line, is the file's own: it stays where it was.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from recipes.reading.locate import Path, locate
from service.owner.lines import extent, trimmed


class CannotArrange(Exception):
    """Raised for a list that is not written as tables with headers, or an order that does not fit it."""


Lines = tuple[str, ...]


def arrange(text: str, path: Path, order: Sequence[int | str]) -> str:
    """``text`` with the list of tables at ``path`` in this order.

    Each member of ``order`` is the place (from 0) where a table stands, or the text of a new one; a place
    that is not named is taken out. Raises CannotArrange.
    """
    between, tables = _cut(text.split("\n"), locate(text), path)
    places = [each for each in order if isinstance(each, int)]
    if len(set(places)) < len(places) or not set(places) <= set(range(len(tables))):
        raise CannotArrange(f"each place of the list, from 0 to {len(tables) - 1}, at most once")
    return "\n".join(_joined(between, tables, order))


def _new(text: str) -> Lines:
    return tuple(text.strip("\n").split("\n"))


def _cut(lines: list[str], located: Mapping[Path, int], path: Path) -> tuple[list[Lines], list[Lines]]:
    """The file cut into what stands before, between and after the tables of the list, and those tables."""
    between: list[Lines] = []
    tables: list[Lines] = []
    done = 0
    for place in _places(located, path):
        begin, end = extent(lines, located, (*path, place))
        between.append(tuple(lines[done:begin]))
        tables.append(tuple(lines[begin:end]))
        done = end
    return [*between, tuple(lines[done:])], tables


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
