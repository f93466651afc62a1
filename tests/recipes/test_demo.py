"""The demo book: its size, its figures against published ones, and every drink of the menu built."""

from __future__ import annotations

from itertools import product

import pytest

from recipes.allergens import GROUPS, MEMBERS, TOLD
from recipes.asking.lines import complete
from recipes.book import Book
from recipes.building.resolve import resolve
from recipes.model import HOT


def test_the_menu_is_as_wide_as_it_says(demo: Book) -> None:
    assert len(demo.drinks) == 20
    assert len(demo.families) == 5
    assert {drink.family for drink in demo.drinks.values()} == set(demo.families)
    assert (len(demo.sizes), len(demo.sugars), len(demo.ices) - 1) == (3, 6, 4)
    assert (len(demo.toppings), demo.toppings_max, len(demo.milks)) == (8, 3, 3)
    assert max(drink.shots for drink in demo.drinks.values()) == 2
    assert any(HOT in drink.ices for drink in demo.drinks.values())
    assert any(drink.without for drink in demo.drinks.values())


def test_every_drink_size_ice_and_sugar_builds_and_fits(demo: Book) -> None:
    built = 0
    for drink in demo.drinks.values():
        for size, ice, sugar in product(drink.sizes, drink.ices, drink.sugars):
            build = resolve(demo, complete(demo, drink.id, size=size, ice=ice, sugar=sugar))
            assert build.fill.filled_ml <= build.fill.line_ml < build.fill.brim_ml
            assert build.fill.vessel_ml <= build.fill.vessel_limit_ml
            # A drink of powders keeps its scoops with little ice, and hot: it stands lower at the same
            # strength.
            least = 0.7 if ice in ("regular", "extra") else 0.6
            assert build.fill.filled_ml > least * build.fill.line_ml, (build.title, ice, sugar)
            built += 1
    assert built > 1000


def test_cell_labels_fit_a_cell(demo: Book) -> None:
    for drink in demo.drinks.values():
        for ice in drink.ices:
            for step in resolve(demo, complete(demo, drink.id, ice=ice)).steps:
                assert 1 <= len(step.short) <= 14
                assert step.text[0].isupper()
                assert "{" not in step.text


def test_steps_are_numbered_along_the_counter(demo: Book) -> None:
    order = list(demo.stations)
    for drink in demo.drinks.values():
        build = resolve(demo, complete(demo, drink.id, shots=drink.shots))
        assert [step.number for step in build.steps] == list(range(1, len(build.steps) + 1))
        places = [order.index(step.station) for step in build.steps]
        assert places == sorted(places)
        assert build.steps[-1].station == "seal"


def test_iced_drinks_are_cold_and_hot_ones_are_hot(demo: Book) -> None:
    """Hot service 54 to 72 °C (Abraham and Diller 2019: 54.4 to 71.1); iced ones near the melting point."""
    for drink in demo.drinks.values():
        for ice in drink.ices:
            at = resolve(demo, complete(demo, drink.id, ice=ice)).balance.temperature_c
            if ice == HOT:
                assert 54 <= at <= 72, drink.name
            elif ice in ("regular", "extra"):
                assert at <= 5, drink.name


def test_more_ice_never_makes_a_drink_warmer(demo: Book) -> None:
    for drink in demo.drinks.values():
        for size in drink.sizes:
            cold = [ice for ice in ("none", "less", "regular", "extra") if ice in drink.ices]
            at = [
                resolve(demo, complete(demo, drink.id, size=size, ice=ice)).balance.temperature_c
                for ice in cold
            ]
            same_tea = at[1:] if any(step.instead for step in drink.steps) else at
            assert same_tea == sorted(same_tea, reverse=True), (drink.name, size, at)


def test_the_cocoa_and_matcha_dissolve_hot(demo: Book) -> None:
    for drink in demo.drinks.values():
        powders = [
            step for step in drink.steps if step.ingredient and demo.pantry[step.ingredient].kind == "powder"
        ]
        assert not powders or any(step.role == "dissolve" and step.ingredient for step in drink.steps), (
            drink.name
        )


# What published tables give per gram, per ml or per 100 g, and how far a brand may lie from it.
DENSITIES = [
    ("creamer", 0.40, 0.10),  # SR28 01069: 94 g/cup, 2.0 g/tsp
    ("cocoa", 0.364, 0.15),  # SR28 19165: 86 g/cup
    ("matcha", 0.43, 0.25),  # FAO/INFOODS Density Database 2.0, powdered tea
    ("whole_milk", 1.031, 0.003),  # SR28 01077: 244 g/cup
    ("condensed_milk", 1.293, 0.01),  # SR28 01095: 306 g/cup
    ("brown_syrup", 9.216 / 7, 0.005),  # ICUMSA sucrose 65 °Bx at 20 °C
    ("ginger_syrup", 1.28661, 0.005),  # ICUMSA sucrose 60 °Bx at 20 °C
    ("fructose", 1.386, 0.02),  # ICUMSA sucrose 76 °Bx, which a fructose syrup of 76 % comes near
    ("hot_water", 0.965, 0.002),  # IAPWS-95 at 90 °C
]


@pytest.mark.parametrize(("ingredient", "density", "tolerance"), DENSITIES)
def test_densities_are_near_published_ones(
    demo: Book, ingredient: str, density: float, tolerance: float
) -> None:
    assert demo.pantry[ingredient].density == pytest.approx(density, rel=tolerance)


CAFFEINE = [
    ("espresso", 2.12, 0.05),  # SR28 14210: 212 mg/100 g
    ("cocoa", 2.30, 0.30),  # SR28 19165: 230 mg/100 g
    ("matcha", 31.65, 0.41),  # Kochman et al., Molecules 2021, 26:85: 18.9 to 44.4 mg/g
    ("green_tea", 0.12, 0.55),  # SR28 14278: 12 mg/100 g brewed, ours a little stronger
]


@pytest.mark.parametrize(("ingredient", "caffeine", "tolerance"), CAFFEINE)
def test_caffeine_is_near_published_figures(
    demo: Book, ingredient: str, caffeine: float, tolerance: float
) -> None:
    assert demo.pantry[ingredient].caffeine == pytest.approx(caffeine, rel=tolerance)


def test_strong_tea_comes_down_to_a_cup_of_tea(demo: Book) -> None:
    """Black tea as drunk has 20 mg caffeine in 100 g (SR28 14355, ±50 %); ours is strong before the ice."""
    build = resolve(demo, complete(demo, "port_milk_tea"))
    assert 100 * build.balance.caffeine_mg / build.balance.liquid_g == pytest.approx(20, rel=0.5)


# By the factors of Regulation (EU) 1169/2011 Annex XIV: protein and carbohydrate 17 kJ/g, fat 37, fibre 8.
ENERGY = [
    ("whole_milk", 255.4, 0.03),  # SR28 01077: P 3.15 F 3.25 C 4.80
    ("condensed_milk", 17 * (7.91 + 54.40) + 37 * 8.70, 0.03),  # SR28 01095
    ("creamer", 17 * (2.48 + 59.29) + 37 * 32.92, 0.03),  # SR28 01069
    ("oat_drink", 258, 0.01),  # Norwegian Food Composition Table 13.123
    ("fructose", 17 * 76, 0.02),  # SR28 19351: 24 % water, the rest sugars
    ("cocoa", 359 * 4.184, 0.05),  # SR28 19165 by EU factors
]


@pytest.mark.parametrize(("ingredient", "kilojoules", "tolerance"), ENERGY)
def test_energy_is_near_published_figures(
    demo: Book, ingredient: str, kilojoules: float, tolerance: float
) -> None:
    assert demo.pantry[ingredient].energy_kj == pytest.approx(kilojoules, rel=tolerance)


def test_whole_milk_has_the_sugars_and_dry_matter_of_the_table(demo: Book) -> None:
    milk = demo.pantry["whole_milk"]  # SR28 01077: sugars 5.05, water 88.13 g/100 g
    assert milk.sugars == pytest.approx(0.0505, rel=0.03)
    assert milk.dry == pytest.approx(0.1187, rel=0.03)


def test_the_allergen_groups_are_the_fourteen_of_annex_ii() -> None:
    """Regulation (EU) 1169/2011 Annex II: entry 8 names eight nuts, entry 1 four cereals."""
    assert len(GROUPS) == 14
    assert len(MEMBERS["nuts"]) == 8
    assert {"wheat", "rye", "barley", "oats"} <= set(MEMBERS["cereals containing gluten"])
    assert {"milk", "eggs", "soybeans", "sesame", "sulphites", "lupin", "molluscs"} <= set(TOLD)


def test_a_creamer_of_caseinate_carries_milk(demo: Book) -> None:
    """Sodium caseinate is a milk derivative: flagged in both the US and the EU list."""
    assert demo.pantry["creamer"].allergens == ("milk",)


@pytest.mark.parametrize(
    ("ingredient", "allergen"),
    [("oat_drink", "oats (gluten)"), ("soy_drink", "soybeans"), ("almond_powder", "almonds (nuts)"),
     ("sesame_powder", "sesame"), ("condensed_milk", "milk"), ("egg_pudding", "eggs"),
     ("egg_pudding", "milk")],
)  # fmt: skip
def test_what_is_made_of_an_allergen_says_so(demo: Book, ingredient: str, allergen: str) -> None:
    assert allergen in demo.pantry[ingredient].allergens


def test_hot_held_things_are_kept_at_most_four_hours_at_57_or_warmer(demo: Book) -> None:
    """FDA Food Code 2022, 3-501.16 (57 °C) and 3-501.19 (4 h without temperature control)."""
    for ingredient in demo.pantry.values():
        if ingredient.hold_s is not None and ingredient.serving_c > 40:
            assert ingredient.serving_c >= 57, ingredient.name
            assert ingredient.hold_s <= 4 * 3600, ingredient.name


def test_milk_and_fruit_are_kept_cold(demo: Book) -> None:
    """FDA Food Code 2022, 3-501.16: at most 5 °C."""
    for ingredient in demo.pantry.values():
        if ingredient.kind == "milk":
            assert ingredient.serving_c <= 5
