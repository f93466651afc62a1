"""More of something is never less of what it brings, over lines of the demo book and of the small bar."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from recipes.book import Book
from recipes.model import HOT, Build, Line, Refusal
from recipes.modifiers import LEAST_DISSOLVING_ML
from recipes.reader import read_book
from recipes.resolve import resolve
from tests.recipes.cases import DEMO, FINE, MILKY, T6, bar
from tests.recipes.drawn import lines_of

BOOKS = {
    "demo": read_book(DEMO),
    "bar": bar(MILKY, shop=FINE),
    "tea gives way": bar(T6.replace("hot = true", 'hot = true\nshot_replaces = "tea"'), shop=FINE),
}
"""The demo book, and small bars that measure finely, so that the rules show undimmed."""


@st.composite
def drawn(draw: st.DrawFn) -> tuple[Book, Line]:
    """A book and any of its lines."""
    book = BOOKS[draw(st.sampled_from(sorted(BOOKS)))]
    return book, draw(lines_of(book))


def along(book: Book, line: Line, field: str, values: Sequence[int | str]) -> list[Build]:
    """The builds of a line with each of these values, those that are refused left out."""
    found = []
    for value in values:
        try:
            found.append(resolve(book, replace(line, **{field: value})))  # type: ignore[arg-type]
        except Refusal:
            continue
    return found


@settings(max_examples=150, deadline=None)
@given(drawn())
def test_more_sugar_is_never_less_sweet(drawn: tuple[Book, Line]) -> None:
    book, line = drawn
    builds = along(book, line, "sugar", sorted(book.drinks[line.drink].sugars))
    sweet = [build.balance.added_brix for build in builds]
    assert sweet == sorted(sweet)


@settings(max_examples=100, deadline=None)
@given(drawn())
def test_more_ice_is_never_warmer(drawn: tuple[Book, Line]) -> None:
    """Cubes are whole: a level up may have as many, where a small cup has no room for one more. Whole
    millilitres of warm tea leave a quarter of a degree, which the proof allows too; a house choice."""
    book, line = drawn
    levels = [ice for ice in book.drinks[line.drink].ices if ice != HOT]
    levels.sort(key=lambda ice: book.ices[ice].factor)
    for less, more in pairwise(along(book, line, "ice", levels)):
        if more.balance.ice_g > less.balance.ice_g:
            assert more.balance.temperature_c <= less.balance.temperature_c + 0.25


@settings(max_examples=100, deadline=None)
@given(drawn())
def test_more_shots_are_never_less_caffeine(drawn: tuple[Book, Line]) -> None:
    book, line = drawn
    caffeine = [
        build.balance.caffeine_mg
        for build in along(book, line, "shots", range(book.drinks[line.drink].shots + 1))
    ]
    assert caffeine == sorted(caffeine)


@settings(max_examples=150, deadline=None)
@given(drawn())
def test_more_shots_are_never_less_drink(drawn: tuple[Book, Line]) -> None:
    """A shot takes its room once: from the dissolving water, then from what the recipe says, then from the
    head room. Before anything melts a plain cup holds as much as before, less the sip of water that is not
    worth pouring and what a cube, a jug and a scoop round."""
    book, line = drawn
    builds = along(book, replace(line, toppings=()), "shots", range(book.drinks[line.drink].shots + 1))
    for fewer, more in pairwise(builds):
        slack = LEAST_DISSOLVING_ML + book.tools["cube"].unit_ml
        assert more.fill.vessel_ml >= fewer.fill.vessel_ml - slack
        assert more.fill.filled_ml >= fewer.fill.filled_ml - slack
