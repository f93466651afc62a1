"""Mass and energy over whole builds, from what the steps put in to what stands in the cup.

Reckoned anew here from each step's count, its tool and the pantry, never from the sums of the build. What
goes out is weighed by its room: millilitres times the density there. Enthalpy is in J above liquid water at
0 °C, so ice at 0 °C holds -333.4 J/g. Of the melting at equilibrium the station's share happens; what ice is
left is at 0 °C, and the rest of the drink shares one temperature. Nothing goes to the cup or the air.
"""

from __future__ import annotations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from recipes.balance.heat import FUSION, ICE_DENSITY, ICE_HEAT, WATER_HEAT
from recipes.balance.load import Settled, settle, specific_heat
from recipes.balance.sucrose import solution_density
from recipes.book import Book, Ingredient
from recipes.building.drink import Made, planned
from recipes.building.resolve import resolve
from recipes.building.toppings import toppings_of
from recipes.model import Line, Refusal
from recipes.reading.reader import read_book
from tests.recipes.cases import DEMO, MILKY, SHOP, bar
from tests.recipes.drawn import lines_of

EXACT = 1e-9


def shaking(share: str) -> str:
    """The small bar's shop, whose shaking gets so far with the melting."""
    return SHOP.replace('name = "Shake"', f'name = "Shake"\nmelt = "{share}"')


BOOKS = {
    "demo": read_book(DEMO),
    "bar": bar(MILKY),
    "a short shake": bar(MILKY, shop=shaking("60 %")),
    "cold ice": bar(
        MILKY.replace("hot = true", 'hot = true\nleast_share = "30 %"'),
        pantry=bar(MILKY).files["pantry.toml"].replace('"-2 °C"', '"-25 °C"'),
    ),
}


@st.composite
def built(draw: st.DrawFn) -> tuple[Book, Line]:
    """A book and any line of it that can be built."""
    book = BOOKS[draw(st.sampled_from(sorted(BOOKS)))]
    line = draw(lines_of(book))
    try:
        resolve(book, line)
    except Refusal:
        assume(False)
    return book, line


STEAM_J_PER_G = 2710.6 - 0.05 * 2193.0
"""Enthalpy of steam at 2.2 bar with a dryness of 0.95, J/g (IAPWS-IF97: h'' 2710.6, latent 2193.0)."""

WATER = Ingredient(
    id="steam", name="steam", short="steam", kind="liquid", brand="", density=1.0, body_density=1.0, sugars=0,
    dry=0, caffeine=0, energy_kj=0, energy_kcal=0, allergens=(), serving_c=100, hot_c=None, price_per_kg=0,
    hold_s=None,
)  # fmt: skip


def put_in(book: Book, line: Line) -> list[tuple[Ingredient, float, float]]:
    """Each ingredient with its grams and its temperature, from the steps alone; steam as water beside the
    milk: m grams of steam give m (h - 4.19 t) to the milk and stay in it at t."""
    found = []
    for step in resolve(book, line).steps:
        if step.amount is not None and step.ingredient is not None:
            ingredient = book.pantry[step.ingredient]
            grams = step.amount.count * book.tools[step.amount.tool].unit_ml * ingredient.density
            celsius = ingredient.serving_c if step.celsius is None else step.celsius
            found.append((ingredient, grams, celsius))
            if step.action == "steam":
                cold = grams * specific_heat(ingredient, ingredient.serving_c) * ingredient.serving_c
                heat = grams * specific_heat(ingredient, celsius) * celsius - cold
                found.append((WATER, heat / (STEAM_J_PER_G - WATER_HEAT * celsius), celsius))
    return found


def settled(book: Book, line: Line) -> tuple[Made, Settled]:
    """The drink, and where it settles over its toppings, to the last digit."""
    toppings = toppings_of(book, line)
    made = planned(book, line).made(toppings.load.body_ml)
    assert made is not None
    return made, settle(made.load.plus(toppings.load), made.plan.melt_share)


@settings(max_examples=100, deadline=None)
@given(built())
def test_mass_that_goes_in_stands_in_the_cup(drawn: tuple[Book, Line]) -> None:
    book, line = drawn
    parts = put_in(book, line)
    _, at_rest = settled(book, line)
    dissolved = sum(g * i.dry for i, g, _ in parts if i.kind not in ("ice", "topping"))
    liquid_in = sum(g for i, g, _ in parts if i.kind not in ("ice", "topping"))
    brix = 100 * dissolved / (liquid_in + at_rest.melted_g)
    liquid = at_rest.liquid_ml * solution_density(brix, max(0.0, at_rest.temperature_c))
    ice = at_rest.ice_ml * ICE_DENSITY
    # Pieces keep their mass: of each topping the room of its pieces times the density of one.
    bodies = sum(
        portion.part.unit.body_ml * portion.amount.volume_ml * portion.part.ingredient.body_density
        for portion in toppings_of(book, line).portions
    )
    assert liquid + ice + bodies == pytest.approx(sum(grams for _, grams, _ in parts), rel=EXACT)
    build = resolve(book, line)
    assert build.balance.liquid_g == pytest.approx(liquid, abs=1e-3)
    assert build.balance.ice_left_g == pytest.approx(ice, abs=1e-3)
    assert sum(layer.volume_ml for layer in build.fill.layers) == pytest.approx(at_rest.filled_ml, abs=1e-3)


@settings(max_examples=100, deadline=None)
@given(built())
def test_heat_that_goes_in_is_in_the_cup(drawn: tuple[Book, Line]) -> None:
    book, line = drawn
    before = moved = capacity = ice_g = 0.0
    for ingredient, grams, celsius in put_in(book, line):
        if ingredient.kind == "ice":
            joules = -grams * (FUSION + ICE_HEAT * -celsius)
            ice_g += grams
        else:
            joules = grams * specific_heat(ingredient, celsius) * celsius
            capacity += grams * specific_heat(ingredient, celsius)
        before += joules
        moved += abs(joules)
    _, at_rest = settled(book, line)
    left = ice_g - at_rest.melted_g
    at = at_rest.temperature_c
    if at >= 0:
        after = (capacity + at_rest.melted_g * WATER_HEAT) * at - left * FUSION
    else:  # all of it solid
        water = left - ice_g
        solid = left * ICE_HEAT + capacity - water * WATER_HEAT
        after = solid * at - left * FUSION
    assert after == pytest.approx(before, abs=EXACT * moved)


@settings(max_examples=100, deadline=None)
@given(built())
def test_no_more_melts_than_its_share_of_what_could(drawn: tuple[Book, Line]) -> None:
    """Spare heat above 0 °C, less what warms the ice, melts 1 g for each 333.4 J: the station's share."""
    book, line = drawn
    spare = ice_g = 0.0
    for ingredient, grams, celsius in put_in(book, line):
        if ingredient.kind == "ice":
            ice_g += grams
            spare -= grams * ICE_HEAT * -celsius
        else:
            spare += grams * specific_heat(ingredient, celsius) * celsius
    made, at_rest = settled(book, line)
    if spare >= 0:
        most = min(ice_g, spare / FUSION)
        assert at_rest.melted_g == pytest.approx(made.plan.melt_share * most, rel=1e-6, abs=1e-6)
