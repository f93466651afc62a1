"""More of something is never less of what it brings, over lines of the demo book and of the small bar."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from hypothesis import example, given, settings
from hypothesis import strategies as st

from recipes.balance.heat import FUSION
from recipes.book import Book
from recipes.building.drink import ROOM_STEP_ML, planned
from recipes.building.plan import LEAST_DISSOLVING_ML
from recipes.building.resolve import resolve
from recipes.model import HOT, Build, Line, Refusal
from recipes.proof.checks import sweet_step_g
from recipes.reading.reader import read_book
from tests.recipes.cases import DEMO, FINE, MILKY, T6, bar
from tests.recipes.drawn import lines_of

BOOKS = {
    "demo": read_book(DEMO),
    "bar": bar(MILKY, shop=FINE),
    "tea gives way": bar(T6.replace("hot = true", 'hot = true\nshot_replaces = "tea"'), shop=FINE),
}
"""The demo book, and small bars that measure finely, so that the rules show undimmed."""


@st.composite
def drawn(draw: st.DrawFn) -> tuple[str, Line]:
    """A book by its name, and any of its lines."""
    name = draw(st.sampled_from(sorted(BOOKS)))
    return name, draw(lines_of(BOOKS[name]))


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
def test_more_sugar_is_never_less_sweet(drawn: tuple[str, Line]) -> None:
    book, line = BOOKS[drawn[0]], drawn[1]
    """To half a step of the sweetener's tool, which is what it tells apart: two levels may be as many strokes
    in drinks that the other tools make a little larger or smaller. A stroke more is always sweeter."""
    builds = along(book, line, "sugar", sorted(book.drinks[line.drink].sugars))
    for less, more in pairwise(builds):
        half_bx = 100 * sweet_step_g(book, line.drink) / 2 / more.balance.liquid_g
        assert more.balance.added_brix >= less.balance.added_brix - half_bx


@settings(max_examples=100, deadline=None)
@given(drawn())
def test_more_ice_is_never_warmer(drawn: tuple[str, Line]) -> None:
    """Cubes are whole: a level up may have as many, where a small cup has no room for one more. Whole
    millilitres of warm tea leave a quarter of a degree, which the proof allows too; a house choice."""
    book, line = BOOKS[drawn[0]], drawn[1]
    levels = [ice for ice in book.drinks[line.drink].ices if ice != HOT]
    levels.sort(key=lambda ice: book.ices[ice].factor)
    for less, more in pairwise(along(book, line, "ice", levels)):
        if more.balance.ice_g > less.balance.ice_g:
            assert more.balance.temperature_c <= less.balance.temperature_c + 0.25


@settings(max_examples=100, deadline=None)
@given(drawn())
def test_more_shots_are_never_less_caffeine(drawn: tuple[str, Line]) -> None:
    book, line = BOOKS[drawn[0]], drawn[1]
    caffeine = [
        build.balance.caffeine_mg
        for build in along(book, line, "shots", range(book.drinks[line.drink].shots + 1))
    ]
    assert caffeine == sorted(caffeine)


SHOTS_LESS_ICE = [
    Line(drink, "large", 100, "less")
    for drink in ("taro_milk_tea", "almond_milk_tea", "black_sesame_milk_tea")
]
"""Lines whose first shot once cost a paying customer 35 to 45 ml: rounded apart, not meant."""


@settings(max_examples=150, deadline=None)
@given(drawn())
@example(("demo", SHOTS_LESS_ICE[0]))
@example(("demo", SHOTS_LESS_ICE[1]))
@example(("demo", SHOTS_LESS_ICE[2]))
def test_more_shots_are_never_less_drink(drawn: tuple[str, Line]) -> None:
    """A shot takes its room once: from the dissolving water, then from what the recipe says, then from the
    head room. What is aimed at never falls by more than the sip of water that is not worth pouring; what is
    measured, by no more than that and a step of the room."""
    book, line = BOOKS[drawn[0]], replace(drawn[1], toppings=())
    shots = range(book.drinks[line.drink].shots + 1)
    aims = [planned(book, replace(line, shots=number)) for number in shots]
    stands = [each.target(each.line_ml).settled.filled_ml for each in aims]
    heats = [0.0 if each.usual is None else each.usual.load(1.0).heat for each in aims]
    for place, (fewer_ml, more_ml) in enumerate(pairwise(stands)):
        # Where a top-up stands in for the melt: a shot at 67 °C melts less ice than the water at 90 °C whose
        # place it takes, 1 g for each 333.4 J.
        less_melt_ml = max(0.0, heats[place] - heats[place + 1]) / FUSION
        assert more_ml >= fewer_ml - LEAST_DISSOLVING_ML - less_melt_ml
    for fewer, more in pairwise(along(book, line, "shots", shots)):
        # Whatever was aimed at: a paying customer's cup.
        assert more.fill.filled_ml >= fewer.fill.filled_ml - LEAST_DISSOLVING_ML - ROOM_STEP_ML - 0.01
