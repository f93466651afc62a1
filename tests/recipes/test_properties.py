"""Laws that hold for any line of the demo menu, tried on lines at random."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from recipes.lines import complete
from recipes.model import HOT, Build, Line, Refusal, ToppingChoice
from recipes.price import price
from recipes.reader import read_book
from recipes.resolve import resolve
from recipes.spoken import read_line
from recipes.words import title, words
from tests.recipes.cases import DEMO

FIELDS = {"drink", "size", "sugar", "ice", "shots", "toppings", "milk", "without"}


BOOK = read_book(DEMO)
SWEET = {
    step.ingredient for drink in BOOK.drinks.values() for step in drink.steps if step.role == "sweetener"
}


@st.composite
def lines(draw: st.DrawFn) -> Line:
    """Any line that the register lets be rung in."""
    drink = BOOK.drinks[draw(st.sampled_from(sorted(BOOK.drinks)))]
    toppings = draw(
        st.lists(
            st.builds(ToppingChoice, st.sampled_from(drink.toppings), st.booleans()),
            max_size=BOOK.toppings_max,
            unique_by=lambda choice: choice.topping,
        )
    )
    return complete(
        BOOK,
        drink.id,
        size=draw(st.sampled_from(drink.sizes)),
        sugar=draw(st.sampled_from(drink.sugars)),
        ice=draw(st.sampled_from(drink.ices)),
        shots=draw(st.integers(0, drink.shots)),
        toppings=toppings,
        milk=draw(st.sampled_from([None, *drink.milks])),
        without=draw(st.lists(st.sampled_from(drink.without), unique=True)) if drink.without else (),
    )


def built(line: Line) -> Build | None:
    """The build, or None when it is refused, which must name a field."""
    try:
        return resolve(BOOK, line)
    except Refusal as caught:
        refusal = caught
    assert refusal.field in FIELDS
    assert refusal.message
    assert refusal.code
    return None


@settings(max_examples=400, deadline=None)
@given(lines())
def test_every_line_builds_and_fits_or_is_refused_naming_a_field(line: Line) -> None:
    build = built(line)
    if build is None:
        return
    assert build.line == line
    assert 0 < build.fill.filled_ml <= build.fill.line_ml
    assert build.fill.vessel_ml <= build.fill.vessel_limit_ml
    assert build.fill.head_ml >= 0
    assert sum(layer.volume_ml for layer in build.fill.layers) == pytest.approx(
        build.fill.filled_ml, abs=0.01
    )
    assert build.steps[-1].station == "seal"
    for step in build.steps:
        if step.amount is not None:
            tool = BOOK.tools[step.amount.tool]
            assert step.amount.count > 0
            assert step.amount.count / float(tool.smallest) == pytest.approx(
                round(step.amount.count / float(tool.smallest))
            )
            assert step.amount.volume_ml == pytest.approx(step.amount.count * tool.unit_ml, abs=1e-3)
    assert set(build.uses) == {step.ingredient for step in build.steps if step.ingredient}


@settings(max_examples=150, deadline=None)
@given(lines())
def test_mass_put_in_is_mass_in_the_cup(line: Line) -> None:
    build = built(line)
    if build is None:
        return
    kinds = {step.ingredient: BOOK.pantry[step.ingredient].kind for step in build.steps if step.ingredient}
    put_in = sum(
        step.amount.mass_g
        for step in build.steps
        if step.amount and step.ingredient and kinds[step.ingredient] != "topping"
    )
    assert build.balance.liquid_g + build.balance.ice_left_g == pytest.approx(put_in, abs=0.01)


def along(line: Line, field: str, values: Sequence[int | str]) -> list[Build]:
    """The builds of a line with each of these values, those that are refused left out."""
    found = [built(replace(line, **{field: value})) for value in values]  # type: ignore[arg-type]
    return [build for build in found if build is not None]


@settings(max_examples=150, deadline=None)
@given(lines())
def test_more_sugar_is_never_less_sweet(line: Line) -> None:
    sweet = [
        build.balance.added_brix for build in along(line, "sugar", sorted(BOOK.drinks[line.drink].sugars))
    ]
    assert sweet == sorted(sweet)


@settings(max_examples=100, deadline=None)
@given(lines())
def test_more_ice_is_never_warmer(line: Line) -> None:
    """Cubes are whole: a level up may have as many, where a small cup has no room for one more. Whole
    millilitres of warm tea leave a quarter of a degree, which the proof allows too; a house choice."""
    levels = [ice for ice in BOOK.drinks[line.drink].ices if ice != HOT]
    levels.sort(key=lambda ice: BOOK.ices[ice].factor)
    for less, more in pairwise(along(line, "ice", levels)):
        if more.balance.ice_g > less.balance.ice_g:
            assert more.balance.temperature_c <= less.balance.temperature_c + 0.25


@settings(max_examples=100, deadline=None)
@given(lines())
def test_more_shots_are_never_less_caffeine(line: Line) -> None:
    shots = range(BOOK.drinks[line.drink].shots + 1)
    caffeine = [build.balance.caffeine_mg for build in along(line, "shots", shots)]
    assert caffeine == sorted(caffeine)


@settings(max_examples=100, deadline=None)
@given(lines())
def test_the_sugar_level_hardly_changes_other_amounts(line: Line) -> None:
    """The level is about added sweetener: all else moves by what one step of a tool rounds."""
    plain = replace(line, toppings=(), shots=0)
    builds = along(plain, "sugar", BOOK.drinks[line.drink].sugars)
    for ingredient in {step.ingredient for build in builds for step in build.steps} - SWEET - {None}:
        volumes = [
            sum(
                step.amount.volume_ml for step in build.steps if step.amount and step.ingredient == ingredient
            )
            for build in builds
        ]
        steps = [
            BOOK.tools[step.amount.tool]
            for build in builds
            for step in build.steps
            if step.amount and step.ingredient == ingredient
        ]
        largest = max(tool.unit_ml * float(tool.smallest) for tool in steps)
        assert max(volumes) - min(volumes) <= 3 * largest + 1e-6, ingredient


@settings(max_examples=150, deadline=None)
@given(lines())
def test_a_larger_cup_never_holds_less(line: Line) -> None:
    filled = [
        build.fill.filled_ml
        for size in BOOK.drinks[line.drink].sizes
        if (build := built(replace(line, size=size))) is not None
    ]
    assert filled == sorted(filled)


@settings(max_examples=100, deadline=None)
@given(lines())
def test_the_same_line_is_the_same_build(line: Line) -> None:
    assert built(line) == built(line)


@settings(max_examples=200, deadline=None)
@given(lines())
def test_a_hot_line_has_neither_ice_nor_shaking(line: Line) -> None:
    build = built(line)
    if build is not None and line.ice == HOT:
        assert "ice" not in build.uses
        assert all(step.action != "shake" for step in build.steps)
        assert build.balance.melted_g == build.balance.ice_left_g == 0


@settings(max_examples=200, deadline=None)
@given(lines())
def test_a_line_told_in_words_is_that_line(line: Line) -> None:
    assert read_line(BOOK, ", ".join([title(BOOK, line), *words(BOOK, line)])) == line


@settings(max_examples=100, deadline=None)
@given(lines())
def test_nothing_costs_less_for_having_more(line: Line) -> None:
    assert price(BOOK, line) >= price(BOOK, replace(line, toppings=(), shots=0, milk=None))
