"""Where each key of a TOML file stands.

``tomllib`` gives values without places; this reads the same text once more, only for the lines of its
headers and keys. It is used on text that ``tomllib`` has accepted, so it need not judge anything.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence

from recipes.reading.scan import tokens

Path = tuple[str | int, ...]
"""The way to a key: ("tools", "scoop", "holds"), ("steps", 2, "amount")."""


def locate(text: str) -> Mapping[Path, int]:
    """The line (from 1) of every table header and key of ``text``; keys of inline tables share their line."""
    lines: dict[Path, int] = {(): 1}
    counts: dict[Path, int] = {}
    table: Path = ()
    depth = 0
    begun: list[str] = []  # what stands on this line, up to the sign after a key
    for number, token in tokens(text + "\n"):
        if depth == 0 and token == "\n":
            if begun[:1] == ["["]:
                table = _enter(begun[1] == "[", _parts(begun), counts)
                for end in range(1, len(table) + 1):
                    lines.setdefault(table[:end], number)  # a table may only ever be opened by those in it
            begun = []
        elif depth == 0 and begun[-1:] != ["="] and token[0] != "#":
            if token == "=":
                lines.setdefault((*table, *_parts(begun)), number)
            begun.append(token)
        elif token in ("[", "{"):
            depth += 1
        elif token in ("]", "}"):
            depth -= 1
    return lines


def line_of(lines: Mapping[Path, int], path: Path) -> int:
    """The line of ``path``, or of the nearest thing around it that has one."""
    while path not in lines:
        path = path[:-1]
    return lines[path]


def _parts(begun: Sequence[str]) -> Path:
    """The parts of a dotted key, without brackets, dots and quotes."""
    return tuple(_plain(token) for token in begun if token not in ("[", "]", "."))


def _plain(part: str) -> str:
    """One part of a key as it is meant: quotes are not part of it, and escapes stand for what they name."""
    if part[0] == '"' and "\\" in part:
        return str(tomllib.loads(f"part = {part}")["part"])
    return part[1:-1] if part[0] in "\"'" else part


def _enter(array: bool, named: Path, counts: dict[Path, int]) -> Path:
    """The full path of a header, with the indices of the arrays of tables it lies in."""
    path: Path = ()
    for place, part in enumerate(named):
        path = (*path, part)
        if place == len(named) - 1 and array:
            counts[path] = counts.get(path, 0) + 1
        if path in counts:
            path = (*path, counts[path] - 1)
    return path
