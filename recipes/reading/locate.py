"""Where each key of a TOML file stands.

``tomllib`` gives values without places; this reads the same text once more, only for the lines of its
headers and keys. It is used on text that ``tomllib`` has accepted, so it need not judge anything.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

Path = tuple[str | int, ...]
"""The way to a key: ("tools", "scoop", "holds"), ("steps", 2, "amount")."""

_PART = r"""(?:"(?:[^"\\]|\\.)*"|'[^']*'|[A-Za-z0-9_-]+)"""
_DOTTED = rf"{_PART}(?:\s*\.\s*{_PART})*"
_HEADER = re.compile(rf"\s*(\[\[?)\s*({_DOTTED})\s*\]")
_KEY = re.compile(rf"\s*({_DOTTED})\s*=")
_QUOTED = re.compile(r'"(?:[^"\\]|\\.)*"|\'[^\']*\'')


def locate(text: str) -> Mapping[Path, int]:
    """The line (from 1) of every table header and key of ``text``; keys of inline tables share their line."""
    lines: dict[Path, int] = {(): 1}
    counts: dict[Path, int] = {}
    table: Path = ()
    open_brackets = 0
    open_quote: str | None = None
    for number, line in enumerate(text.split("\n"), 1):
        if open_quote is not None:
            if open_quote in line:
                open_quote = None
            continue
        if open_brackets == 0:
            header = _HEADER.match(line)
            key = _KEY.match(line)
            if header:
                table = _enter(header[1] == "[[", _parts(header[2]), counts)
                for end in range(1, len(table) + 1):
                    lines.setdefault(table[:end], number)  # a table may only ever be opened by those in it
                continue
            if key:
                lines.setdefault((*table, *_parts(key[1])), number)
        open_quote = _left_open(line)
        if open_quote is None:
            open_brackets += _brackets(line)
    return lines


def line_of(lines: Mapping[Path, int], path: Path) -> int:
    """The line of ``path``, or of the nearest thing around it that has one."""
    while path not in lines:
        path = path[:-1]
    return lines[path]


def _parts(dotted: str) -> Path:
    return tuple(part.strip("\"'") for part in re.findall(_PART, dotted))


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


def _left_open(line: str) -> str | None:
    """The triple quote that a line leaves open, if it does."""
    for quote in ('"""', "'''"):
        if line.count(quote) % 2:
            return quote
    return None


def _brackets(line: str) -> int:
    """How many square brackets the values of a line leave open."""
    bare = _QUOTED.sub("", line).split("#", 1)[0]
    return bare.count("[") - bare.count("]")
