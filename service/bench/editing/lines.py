"""Which lines of a file are a table's own: its header, its keys, the comment right above and right below."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from recipes.reading.locate import Path


def extent(lines: Sequence[str], located: Mapping[Path, int], path: Path) -> tuple[int, int]:
    """The first line (from 0) of the table at a path and the line after its last, tables inside it included.

    The comment right above its header and the one right below its last key are its own; what stands apart,
    after a blank line, is not, nor is the comment right above the next header. () is what comes before all
    headers.
    """
    headers = {line - 1 for key, line in located.items() if key and is_header(lines[line - 1])}
    if not path:
        return 0, _last(lines, -1, min(headers, default=len(lines)))
    here = located[path] - 1
    inside = {line - 1 for key, line in located.items() if key[: len(path)] == path}
    following = min((line for line in headers if line > here and line not in inside), default=len(lines))
    return _above(lines, here), _last(lines, here, following)


def is_header(line: str) -> bool:
    """Whether a line that begins a table or key begins a table."""
    return line.lstrip().startswith("[")


def is_comment(line: str) -> bool:
    """Whether there is nothing on a line but a comment."""
    return line.lstrip().startswith("#")


def _above(lines: Sequence[str], header: int) -> int:
    """Where the comment right above a header begins."""
    while header > 0 and is_comment(lines[header - 1]):
        header -= 1
    return header


def _last(lines: Sequence[str], header: int, following: int) -> int:
    """The line after a table's last, with the comment right below it; ``following`` is the next header."""
    limit = _above(lines, following) if following < len(lines) else following
    end = limit
    while end > header + 1 and (not lines[end - 1].strip() or is_comment(lines[end - 1])):
        end -= 1
    while end < limit and is_comment(lines[end]):
        end += 1
    return end


def trimmed(lines: Sequence[str]) -> list[str]:
    """Without the blank lines at the end."""
    end = len(lines)
    while end > 0 and not lines[end - 1].strip():
        end -= 1
    return list(lines[:end])
