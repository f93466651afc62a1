"""Names and notes: shown as text, on one line, whatever was typed."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.web.text import CUT, NAME_LENGTH, clean


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("  Ana \t Maria\n", "Ana Maria"),
        ("<b>Ana</b>", "<b>Ana</b>"),  # shown as text by every screen; nothing to strip
        ("Ana\x00\x1b[31m", "Ana[31m"),
        ("abc\u202edef\u2066x\u2069", "abcdefx"),
        ("\ufeffZo\u200be", "Zoe"),
        ("e\u0301", "é"),
        ("👩\u200d🍳", "👩\u200d🍳"),
        ("میخوا\u200cهم", "میخوا\u200cهم"),
        ("\ud800x", "x"),
        ("line\u2028break", "line break"),
        ("\u200d", ""),
        ("", ""),
    ],
)
def test_only_what_can_be_read_is_kept(typed: str, shown: str) -> None:
    assert clean(typed, NAME_LENGTH) == shown


def test_a_long_name_is_cut_with_a_sign() -> None:
    found = clean("n" * 10_000, 40)
    assert found == "n" * 39 + CUT


def test_a_name_of_just_the_length_is_not_cut() -> None:
    assert clean("n" * 40, 40) == "n" * 40


def test_a_cut_does_not_part_a_letter_from_its_marks() -> None:
    assert clean("ab" + "x\u0331" * 4, 5) == "abx\u0331" + CUT


def test_a_pile_of_marks_is_pulled_down() -> None:
    assert len(clean("e" + "\u0316" * 50, 40)) == 5


@given(st.text(max_size=300), st.integers(1, 60))
def test_cleaning_is_done_once_and_for_all(typed: str, length: int) -> None:
    found = clean(typed, length)
    assert len(found) <= length
    assert clean(found, length) == found
    assert all(unicodedata.category(c) not in ("Cc", "Cs", "Co", "Cn", "Zl", "Zp") for c in found)
