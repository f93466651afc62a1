"""The words of a TOML text with their lines: as much of its grammar as telling places and depths takes.

``tomllib`` gives values without places, and calls itself for every bracket inside a bracket. Here a text is
read once, in time in proportion to its length and without any recursion, whatever stands in it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

_TOKEN = re.compile(
    # Text over many lines; what is never closed is all the rest, so that it is looked through once.
    r'"""(?:[^"\\]++|\\.|"(?!""))*+(?:"{3,5}|\\?\Z)'
    r"|'''(?:[^']++|'(?!''))*+(?:'{3,5}|\Z)"
    r'|"(?:[^"\\\n]++|\\[^\n])*+"?'
    r"|'[^'\n]*+'?"
    r"|\#[^\n]*+"
    r"|[A-Za-z0-9_-]++"
    r"|[\[\]{}=.,\n]",
    re.DOTALL,
)

MOST_DEPTH = 8
"""The deepest nesting that is read: parts of a key, or brackets within brackets. A book needs five."""

MOST_TABLES = 1000
"""The most headers in one file. A pantry has at most 300, a drink two for each of its 60 steps."""


def tokens(text: str) -> Iterator[tuple[int, str]]:
    """Line (from 1) and text of every string, comment, bare word, bracket, sign and line's end, in order."""
    line = 1
    for found in _TOKEN.finditer(text):
        token = found[0]
        yield line, token
        line += token.count("\n")


def too_much(text: str) -> tuple[int, str, str, str] | None:
    """Where a text nests too deep or opens too many tables: line, key, what was found and what is accepted.

    None when it does neither; then ``tomllib`` recurses no deeper than ``MOST_DEPTH``.
    """
    depth, parts, tables, first = 0, 0, 0, True
    for line, token in tokens(text):
        if token == "\n":
            parts, first = 0, True
            continue
        if token == "[" and first and depth == 0:
            tables += 1
            if tables > MOST_TABLES:
                return (
                    line,
                    "(tables)",
                    f"{tables} tables in a file",
                    f"at most {MOST_TABLES} tables in a file",
                )
        first = False
        if token in ("[", "{"):
            depth += 1
        elif token in ("]", "}"):
            depth = max(0, depth - 1)
        elif token == ".":
            parts += 1
        elif token in ("=", ","):
            parts = 0
        if depth > MOST_DEPTH:
            return (
                line,
                "(nesting)",
                f"{depth} brackets in one another",
                f"at most {MOST_DEPTH} in one another",
            )
        if parts >= MOST_DEPTH:
            return (
                line,
                "(nesting)",
                f"more than {MOST_DEPTH} parts of a key",
                f"at most {MOST_DEPTH}, with dots between",
            )
    return None
