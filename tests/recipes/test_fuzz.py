"""Whatever is written into a book, reading it ends with a book or with its faults, and with nothing else."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from recipes.asking.lines import default_line
from recipes.book import Book
from recipes.building.resolve import resolve
from recipes.reading.faults import BookRefused
from recipes.reading.reader import parse_book
from tests.recipes.cases import files

NASTY = [
    "nan", "inf", "-inf", "-0.0", "0", "-1", "1e99999999999999999999", "1e999999999999999999",
    "1e400", "1e-400", "9" * 40, "0x" + "f" * 5000, "true",
    '""', '" "', "[]", "[[]]", "{}", "{ a = 1 }", "1979-05-27", "07:32:00", '"\\u0000"', '"\\u202e"',
    '"½ scoop"', '"1/0 ml"', '"-2 ml"', '"1e9 ml"', '"0 ml"', '"2 l"', '"NaN g"', '"30 to 30 s"', '"ml"',
    '"100 %"',
    '"%"', '"hot"', '"ice"', '"tea"',
    '["tea", "tea"]', '[1, "a"]', '"' + "x" * 300 + '"', "'''\na\n'''",
]  # fmt: skip
"""Values that an owner would not write, and some that fit elsewhere."""

VALUE = re.compile(r"^([^#\n=]+ = ).+$", re.MULTILINE)
GOOD = files()
PLACES = [(name, found.start()) for name, text in GOOD.items() for found in VALUE.finditer(text)]


def read(changed: dict[str, str]) -> Book | None:
    """The book, or None with faults that name a place in a file of the book."""
    try:
        book = parse_book(changed)
    except BookRefused as caught:
        refused = caught
    else:
        return book
    assert refused.faults
    for fault in refused.faults:
        assert fault.file in changed
        assert 1 <= fault.line <= changed[fault.file].count("\n") + 1
        assert fault.key
        assert fault.message
        assert fault.accepted
    return None


@settings(max_examples=500, deadline=None)
@given(place=st.sampled_from(PLACES), value=st.sampled_from(NASTY))
def test_a_nasty_value_anywhere_is_a_fault_or_a_book_that_works(place: tuple[str, int], value: str) -> None:
    name, start = place
    text = GOOD[name]
    changed = text[:start] + VALUE.sub(lambda found: found[1] + value, text[start:], count=1)
    book = read({**GOOD, name: changed})
    if book is not None:
        assert resolve(book, default_line(book, "it")).steps


@settings(max_examples=200, deadline=None)
@given(st.sampled_from(sorted(GOOD)), st.integers(0, 10_000), st.integers(1, 200), st.text(max_size=8))
def test_a_torn_text_is_a_fault_or_a_book_that_works(name: str, at: int, length: int, put: str) -> None:
    text = GOOD[name]
    at %= len(text)
    book = read({**GOOD, name: text[:at] + put + text[at + length :]})
    if book is not None and "it" in book.drinks:
        assert resolve(book, default_line(book, "it")).steps


@pytest.mark.parametrize("name", sorted(GOOD))
def test_an_empty_file_is_a_fault(name: str) -> None:
    assert read({**GOOD, name: ""}) is None
