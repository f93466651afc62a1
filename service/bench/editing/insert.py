"""Tables and keys put into a file's text, or tables taken out of it, where a person would do it.

A table comes after the last of its kind, a key after the last of its table (a number in its order); no
comment changes its place.
"""

from __future__ import annotations

from collections.abc import Mapping

from recipes.reading.locate import Path, locate
from service.bench.editing.lines import extent, is_comment, is_header, trimmed


def put_table(text: str, path: Path, table: str) -> str:
    """``text`` with the text of a table, its header included, put in for a path that is not there yet."""
    lines = text.split("\n")
    located = locate(text)
    kin = [
        key
        for key, line in located.items()
        if len(key) == len(path) and key[:-1] == path[:-1] and is_header(lines[line - 1])
    ]
    place = max((extent(lines, located, key)[1] for key in kin), default=len(trimmed(lines)))
    before, after = trimmed(lines[:place]), lines[place:]
    return "\n".join([*before, *([""] if before else []), *table.strip("\n").split("\n"), *(after or [""])])


def take_table(text: str, path: Path) -> str:
    """``text`` without the table at a path and without the comments that are its own."""
    lines = text.split("\n")
    begin, end = extent(lines, locate(text), path)
    if end < len(lines) and not lines[end].strip():
        end += 1
    return "\n".join([*trimmed([*lines[:begin], *lines[end:]]), ""])


def has_header(text: str, path: Path) -> bool:
    """Whether the table at a path stands under a header of its own (or is the file itself)."""
    line = locate(text).get(path)
    if not path or line is None:
        return not path
    parts = ".".join(str(part) for part in path if isinstance(part, str))
    return text.split("\n")[line - 1].lstrip().lstrip("[").replace('"', "").startswith(f"{parts}]")


def put_key(text: str, path: Path, key: str, line: str) -> str:
    """``text`` with a key's line put into the table at a path, which has a header and not this key."""
    lines = text.split("\n")
    located = locate(text)
    own = {
        str(each[-1]): number - 1
        for each, number in located.items()
        if len(each) == len(path) + 1 and each[:-1] == path and not is_header(lines[number - 1])
    }
    later = [
        number
        for each, number in own.items()
        if each.isdecimal() and key.isdecimal() and int(each) > int(key)
    ]
    place = min(later) if later else _end_of_keys(lines, located, path)
    return "\n".join([*lines[:place], line.strip("\n"), *lines[place:]])


def _end_of_keys(lines: list[str], located: Mapping[Path, int], path: Path) -> int:
    """The line after the last key of a table, before the comment below it and the tables inside it."""
    begin, end = extent(lines, located, path)
    header = located[path] - 1 if path else -1
    inside = [
        number - 1
        for each, number in located.items()
        if each[: len(path)] == path and number - 1 > header and is_header(lines[number - 1])
    ]
    end = min([end, *inside])
    while end > max(begin, header + 1) and (not lines[end - 1].strip() or is_comment(lines[end - 1])):
        end -= 1
    return end
