"""Published figures of water, ice and caffeine, each held against what is reckoned here.

The figures stand as published; the library that gives them too is asked beside them where there is one.
"""

from __future__ import annotations

import pytest
from CoolProp.CoolProp import PropsSI
from iapws import IAPWS95, _iapws

from recipes.asking.lines import complete
from recipes.balance.heat import FUSION, ICE_DENSITY, ICE_HEAT, WATER_HEAT
from recipes.balance.load import liquid_volume, load_of, steamed_load
from recipes.balance.outcome import sums
from recipes.balance.sucrose import water_density
from recipes.book import Book, Ingredient
from recipes.building.resolve import resolve
from recipes.model import Balance
from recipes.telling.cautions import HIGH_CAFFEINE_MG_PER_L, cautions
from tests.recipes.cases import PANTRY, SHOP, T6, bar, finely

ATMOSPHERE = 0.101325


@pytest.mark.parametrize(
    ("celsius", "density"),
    [
        (0.01, 999.844), (4, 999.975), (20, 998.207), (25, 997.048),
        (40, 992.216), (60, 983.196), (80, 971.790), (90, 965.310),
    ],
)  # fmt: skip
def test_water_has_the_density_of_iapws_95(celsius: float, density: float) -> None:
    """kg/m3 at 101.325 kPa; both libraries agree with the figure, ours is within 0.02."""
    assert IAPWS95(T=273.15 + celsius, P=ATMOSPHERE).rho == pytest.approx(density, abs=0.005)
    assert PropsSI("D", "T", 273.15 + celsius, "P", 101_325, "Water") == pytest.approx(density, abs=0.005)
    assert 1000 * water_density(celsius) == pytest.approx(density, abs=0.02)


@pytest.mark.parametrize(
    ("celsius", "joules"), [(0, 4.219), (4, 4.208), (20, 4.184), (25, 4.181), (60, 4.185), (90, 4.205)]
)
def test_one_specific_heat_stands_for_that_of_iapws_95(celsius: float, joules: float) -> None:
    assert IAPWS95(T=max(0.01, celsius) + 273.15, P=ATMOSPHERE).cp == pytest.approx(joules, abs=0.002)
    assert pytest.approx(joules, rel=0.007) == WATER_HEAT


@pytest.mark.parametrize(("celsius", "joules"), [(20, 83.94), (60, 251.18), (85, 355.98), (90, 376.99)])
def test_the_heat_of_a_gram_of_water_is_near_the_enthalpy_of_iapws_95(celsius: float, joules: float) -> None:
    assert WATER_HEAT * celsius == pytest.approx(joules, rel=0.003)


@pytest.mark.parametrize(("celsius", "density"), [(0, 916.72), (-5, 917.45), (-18, 919.29), (-20, 919.57)])
def test_ice_is_as_dense_as_iapws_r10_06_has_it(celsius: float, density: float) -> None:
    """One density for all of it: within 0.3 %, clear ice without air."""
    assert _iapws._Ice(273.15 + celsius, ATMOSPHERE)["rho"] == pytest.approx(density, abs=0.2)
    assert pytest.approx(density, rel=0.003) == 1000 * ICE_DENSITY


@pytest.mark.parametrize(("celsius", "joules"), [(0, 2.097), (-5, 2.060), (-18, 1.964), (-20, 1.950)])
def test_ice_warms_as_iapws_r10_06_has_it(celsius: float, joules: float) -> None:
    """One specific heat for all of it, within 1 % of the mean from -18 to 0 °C, 2.03."""
    assert _iapws._Ice(273.15 + celsius, ATMOSPHERE)["cp"] == pytest.approx(joules, abs=0.005)
    assert pytest.approx(joules, rel=0.06) == ICE_HEAT
    assert pytest.approx(2.03, rel=0.01) == ICE_HEAT


def test_a_gram_of_ice_at_minus_18_takes_370_joules_to_melt() -> None:
    """36.55 J to warm and 333.43 J to melt (IAPWS R10-06, IAPWS-95)."""
    water = IAPWS95(T=273.16, P=ATMOSPHERE).h
    ice = _iapws._Ice(273.15, ATMOSPHERE)["h"]
    assert water - ice == pytest.approx(333.43, abs=0.1)
    assert pytest.approx(333.43, abs=0.2) == FUSION
    assert pytest.approx(369.98, abs=0.5) == 18 * ICE_HEAT + FUSION


def test_melting_shrinks_and_freezing_swells() -> None:
    """By 8.31 and 9.07 % of the volume (IAPWS-95 at 0.01 °C over R10-06 at 0 °C)."""
    assert 100 * (ICE_DENSITY / water_density(0.01) - 1) == pytest.approx(-8.31, abs=0.05)
    assert 100 * (water_density(0.01) / ICE_DENSITY - 1) == pytest.approx(9.07, abs=0.05)


def test_a_cup_does_not_rise_when_its_ice_melts() -> None:
    """Archimedes: 300 g of water with 100 g of ice at 0 °C hold 409.1 ml, 400.1 ml once all is melted; ice
    floats with 400.1 ml below the water, so what stands in the cup is reckoned higher than the waterline."""
    before = liquid_volume(300, 0, 0) + 100 / ICE_DENSITY
    assert before == pytest.approx(409.1, abs=0.3)
    assert liquid_volume(400, 0, 0) == pytest.approx(400.1, abs=0.3)
    floating = (300 + 100) / water_density(0)  # ice displaces its own weight
    assert floating == pytest.approx(liquid_volume(400, 0, 0))


@pytest.mark.parametrize(("side_mm", "grams"), [(25, 14.36), (20, 7.35)])
def test_a_solid_cube_weighs_what_its_side_says(side_mm: float, grams: float) -> None:
    """IAPWS R10-06 at -18 °C; real cubes are dimpled."""
    assert (side_mm / 10) ** 3 * ICE_DENSITY == pytest.approx(grams, rel=0.01)


def brewed(name: str, kind: str, milligrams_per_gram: float) -> Ingredient:
    """Something brewed, water but for its caffeine."""
    return Ingredient(
        id=name, name=name, short=name, kind="tea" if kind == "tea" else "espresso", brand="", density=1.0,
        body_density=1.0, sugars=0, dry=0, caffeine=milligrams_per_gram, energy_kj=0, energy_kcal=0,
        allergens=(), serving_c=60, hot_c=None, price_per_kg=0, hold_s=None,
    )  # fmt: skip


BLACK_TEA, ESPRESSO = brewed("black tea", "tea", 0.20), brewed("espresso", "shot", 2.12)
"""SR28 14355: 20 mg in 100 g; SR28 14210: 212 mg in 100 g."""


@pytest.mark.parametrize(
    ("ingredient", "grams", "milligrams"),
    [
        (BLACK_TEA, 237, 47),  # SR28 14355, a cup
        (brewed("green tea", "tea", 0.12), 245, 29),  # SR28 14278, a cup
        (ESPRESSO, 29.6, 62.8),  # SR28 14210, a fluid ounce
    ],
)
def test_caffeine_of_a_serving(ingredient: Ingredient, grams: float, milligrams: float) -> None:
    assert sums([(ingredient, grams, False)]).caffeine_mg == pytest.approx(milligrams, abs=0.5)


def test_caffeine_of_tea_espresso_and_melt_by_hand() -> None:
    """200 g at 20 mg/100 g and 29.6 g at 212 mg/100 g: 40 + 62.8 = 102.8 mg; with 160 g of melt 389.6 g in
    all, so 102.8 / 0.3896 = 263.7 mg/kg (SR28 14355 and 14210)."""
    milligrams = sums([(BLACK_TEA, 200, False), (ESPRESSO, 29.6, False)]).caffeine_mg
    assert milligrams == pytest.approx(102.8, abs=0.1)
    assert milligrams / (200 + 29.6 + 160) * 1000 == pytest.approx(263.7, abs=0.3)


def test_the_same_drink_whole_with_its_melt() -> None:
    """The worked example as a build; that all 160 g of ice melts follows from the heat. 200 g of tea at 80 °C
    and 29.6 g of espresso at 67 °C hold 4.19 x (16,000 + 1983) = 75,350 J above 0 °C; ice at -2 °C takes
    4.1 + 333.4 J a gram, so there is heat for 223 g of it."""
    recipe = T6[: T6.index("[[steps]]")].replace('without = ["creamer"]', "").replace("hot = true", "")
    recipe = recipe.replace('[keep]\npowder = "nothing would taste of taro"\n', "")
    recipe = recipe[: recipe.index("[top_up]")].replace("small = 3.00\n", "").replace("large = 5.00\n", "")
    for station, do, what, amount in (
        ("espresso", "pull", "espresso", "1 shot"),
        ("tea", "pour", "tea", "200 g"),
        ("shake", "ice", "ice", "160 g"),
    ):
        tool = 'tool = "cube"\n' if do == "ice" else 'tool = "jug"\n' if do == "pour" else ""
        recipe += (
            f'[[steps]]\nstation = "{station}"\ndo = "{do}"\nwhat = "{what}"\namount = "{amount}"\n{tool}'
        )
    recipe += '[[steps]]\nstation = "shake"\ndo = "shake"\n[[steps]]\nstation = "seal"\ndo = "seal"\n'
    shop = SHOP.replace('holds = "40 ml"', 'holds = "29.6 ml"').replace(
        'holds = "27 ml"\nsmallest = "1"', 'holds = "1 ml"\nsmallest = "1"'
    )
    pantry = PANTRY.replace('caffeine = "0.36 mg/g"', 'caffeine = "0.20 mg/g"')
    book = finely(bar(recipe, shop=shop, pantry=pantry), {"jug": "0.02", "cube": "0.01"})
    found = resolve(book, complete(book, "it")).balance
    assert found.melted_g == pytest.approx(160, abs=2)
    assert found.ice_left_g == pytest.approx(0, abs=0.1)
    assert found.caffeine_mg == pytest.approx(102.8, abs=1)
    assert found.caffeine_mg / found.liquid_g * 1000 == pytest.approx(263.7, rel=0.01)


def told(name: str, milligrams: float, millilitres: float = 400) -> list[str]:
    """The cautions about caffeine in a drink of this name."""
    found = Balance(
        temperature_c=0, liquid_g=millilitres, liquid_ml=millilitres, melted_g=0, ice_left_g=0, sugars_g=0,
        added_sugars_g=0, brix=0, caffeine_mg=milligrams, energy_kj=0, energy_kcal=0,
    )  # fmt: skip
    return [said.words for said in cautions(bar(), name, found, (), ()) if "caffeine" in said.words]


def test_high_caffeine_is_told_strictly_above_150_mg_per_litre() -> None:
    """Regulation (EU) 1169/2011 Annex III 4.1, with mg/100 ml in brackets: 60 mg in 400 ml is at the edge."""
    assert HIGH_CAFFEINE_MG_PER_L == 150
    assert told("Cocoa Cooler", 60.0) == []
    (caution,) = told("Cocoa Cooler", 60.1)
    assert caution.startswith("High caffeine content. Not recommended for children or pregnant or ")
    assert caution.endswith("(15 mg/100 ml).")


@pytest.mark.parametrize("name", ["Port Milk Tea", "Oolong Coffee Milk", "Iced-Tea Cooler", "COFFEE"])
def test_a_name_that_says_coffee_or_tea_tells_enough(name: str) -> None:
    """The same entry excepts drinks whose name includes "coffee" or "tea"."""
    assert told(name, 150) == []


@pytest.mark.parametrize("name", ["Steamed Matcha Milk", "Brown Sugar Milk", "Steak Soup"])
def test_a_name_that_hides_it_does_not(name: str) -> None:
    assert len(told(name, 150)) == 1


def test_more_than_a_single_dose_is_told_whatever_the_name() -> None:
    """200 mg at one time: no concern for adults (EFSA Journal 2015;13(5):4102); above it, it is told."""
    assert told("Port Milk Tea", 200.0) == []
    (caution,) = told("Port Milk Tea", 200.5)
    assert "more than the 200 mg advised at one time" in caution


@pytest.mark.parametrize(("milk", "kilojoules", "per_cent"), [
    ("whole_milk", 61.2, 10.1), ("soy_drink", 63.0, 10.4), ("oat_drink", 60.0, 9.9),
])  # fmt: skip
def test_steam_that_warms_milk_stays_in_it(demo: Book, milk: str, kilojoules: float, per_cent: float) -> None:
    """260 g from 4 to 65 °C: heat by Choi and Okos's components, water taken up r = Q / (h - h_water) for
    steam of 2.2 bar, 0.95 dry (IAPWS-IF97: 2710.6 J/g of which 2193.0 latent, water at 65 °C 272.1), in per
    cent."""
    ingredient = demo.pantry[milk]
    volume = 260 / ingredient.density
    cold, warm = load_of(ingredient, volume, 4), load_of(ingredient, volume, 65)
    assert (warm.heat - cold.heat) / 1000 == pytest.approx(kilojoules, rel=0.03)
    steamed = steamed_load(ingredient, volume, 4, 65)
    assert 100 * (steamed.mass_g / 260 - 1) == pytest.approx(per_cent, abs=0.3)
    assert steamed.heat / steamed.capacity == pytest.approx(65, abs=0.01)
