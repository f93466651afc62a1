"""Words typed by people, made fit to show on every screen: one line, no tricks, not too long."""

from __future__ import annotations

import unicodedata

NAME_LENGTH = 40
NOTE_LENGTH = 120
CUT = "…"

_JOINERS = "\u200c\u200d"
"""Zero-width (non-)joiners: letters of several scripts and joined emoji need them."""

_MARKS_IN_A_ROW = 4
"""More combining marks than this on one letter is no writing, but climbs over other rows."""


def clean(text: str, length: int) -> str:
    """One line of at most ``length`` characters, cut with a sign where it was longer.

    Left out are control characters, marks that turn the reading direction, surrogates, private
    characters and piles of combining marks; any run of blanks becomes one space.
    """
    kept: list[str] = []
    marks = 0
    for character in unicodedata.normalize("NFC", text):
        category = unicodedata.category(character)
        marks = marks + 1 if category.startswith("M") else 0
        if character.isspace() or category in ("Zl", "Zp"):
            kept.append(" ")
        elif character in _JOINERS or (not category.startswith("C") and marks <= _MARKS_IN_A_ROW):
            kept.append(character)
    line = " ".join("".join(kept).split()).strip(_JOINERS + " ")
    return line if len(line) <= length else _cut(line, length - len(CUT)) + CUT


def _cut(line: str, length: int) -> str:
    """The first ``length`` characters, or fewer so as not to part a letter from its marks."""
    end = length
    while end > 0 and (unicodedata.category(line[end]).startswith("M") or line[end] in _JOINERS):
        end -= 1
    return line[:end].rstrip(_JOINERS + " ")
