"""Heat, mass and volume against IAPWS-95, IAPWS R10-06 and the ICUMSA density of sugar solutions.

The expected figures of the worked examples were reckoned with the iapws library, which is asked here too.
"""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from iapws import IAPWS95, _iapws

from recipes.balance import (
    DISSOLVED_ML_PER_G,
    FUSION,
    ICE_DENSITY,
    ICE_HEAT,
    WATER_HEAT,
    Load,
    melt,
    settle,
    specific_heat,
)  # fmt: skip

ATMOSPHERE = 0.101325


def water_enthalpy(celsius: float) -> float:
    """Liquid water, J/g above liquid water at 0 °C (IAPWS-95); 0 °C itself is metastable by 2.5 mK."""
    return float(IAPWS95(T=max(celsius, 0.01) + 273.15, P=ATMOSPHERE).h - IAPWS95(T=273.16, P=ATMOSPHERE).h)


def ice_cold(celsius: float) -> float:
    """J to warm 1 g of ice to 0 °C (IAPWS R10-06)."""
    return float(_iapws._Ice(273.15, ATMOSPHERE)["h"] - _iapws._Ice(celsius + 273.15, ATMOSPHERE)["h"])


def library(water: float, at: float, ice: float, ice_at: float) -> tuple[float, float]:
    """Temperature and melted mass by enthalpies of the library, where the drink does not freeze."""
    fusion = 333.43
    spare = water * water_enthalpy(at) - ice * ice_cold(ice_at)
    if spare < ice * fusion:
        return 0.0, spare / fusion
    low, high = 0.0, 100.0
    target = (spare - ice * fusion) / (water + ice)
    while high - low > 1e-6:
        middle = (low + high) / 2
        low, high = (middle, high) if water_enthalpy(middle) < target else (low, middle)
    return low, ice


def ours(water: float, at: float, ice: float, ice_at: float) -> tuple[float, float]:
    """The same by our constant properties."""
    return melt(water * WATER_HEAT, water * WATER_HEAT * at, water, ice, ice * ICE_HEAT * -ice_at)


# Columns: water g at °C, ice g at °C, then what IAPWS gives: °C or melted g, and the tolerance.
ENDS_WARM = [
    (300, 85, 150, -18, 27.19, 0.2),
    (350, 60, 180, -10, 10.86, 0.2),
    (300, 90, 200, 0, 22.12, 0.2),
    (400, 60, 0, 0, 60.00, 1e-9),
]
ENDS_WITH_ICE = [
    (250, 25, 200, 0, 78.61, 0.5),
    (250, 20, 200, -18, 41.01, 0.6),
    (180, 70, 250, -18, 130.80, 0.6),
    (100, 10, 100, -18, 1.65, 0.4),
    (50, 4, 400, -18, -41.33, 0.8),
]


@pytest.mark.parametrize(("water", "at", "ice", "ice_at", "celsius", "tolerance"), ENDS_WARM)
def test_all_ice_melts(
    water: float, at: float, ice: float, ice_at: float, celsius: float, tolerance: float
) -> None:
    temperature, melted = ours(water, at, ice, ice_at)
    assert temperature == pytest.approx(celsius, abs=tolerance)
    assert melted == pytest.approx(ice)


@pytest.mark.parametrize(("water", "at", "ice", "ice_at", "grams", "tolerance"), ENDS_WITH_ICE)
def test_some_ice_stays_or_water_freezes(
    water: float, at: float, ice: float, ice_at: float, grams: float, tolerance: float
) -> None:
    temperature, melted = ours(water, at, ice, ice_at)
    assert temperature == 0
    assert melted == pytest.approx(grams, abs=tolerance)


def test_everything_freezes_solid() -> None:
    temperature, melted = ours(20, 4, 500, -20)
    assert temperature == pytest.approx(-12.40, abs=0.4)  # IAPWS
    assert melted == -20


@settings(deadline=None, max_examples=40)  # the library is slow
@given(water=st.floats(50, 600), at=st.floats(5, 95), ice=st.floats(1, 300), ice_at=st.floats(-20, -0.5))
def test_constant_properties_stay_near_the_library(
    water: float, at: float, ice: float, ice_at: float
) -> None:
    celsius, melted = library(water, at, ice, ice_at)
    if melted >= 0:
        ours_celsius, ours_melted = ours(water, at, ice, ice_at)
        assert ours_celsius == pytest.approx(celsius, abs=0.6)
        assert ours_melted == pytest.approx(melted, abs=0.006 * water * at / 80 + 1.0)


@pytest.mark.parametrize(("at", "grams"), [(20, 22.69), (60, 67.89), (80, 90.54), (90, 101.90)])
def test_ice_at_minus_18_that_just_melts_in_100_g_of_water(at: float, grams: float) -> None:
    """IAPWS R10-06 and IAPWS-95."""
    just = 100 * WATER_HEAT * at / (FUSION + ICE_HEAT * 18)
    assert just == pytest.approx(grams, rel=0.005)
    temperature, melted = ours(100, at, just, -18)
    assert temperature == pytest.approx(0, abs=1e-6)
    assert melted == pytest.approx(just)


@pytest.mark.parametrize(("at", "grams"), [(20, 25.17), (60, 75.33), (80, 100.47), (90, 113.07)])
def test_ice_at_0_that_just_melts_in_100_g_of_water(at: float, grams: float) -> None:
    assert 100 * WATER_HEAT * at / FUSION == pytest.approx(grams, rel=0.005)


def test_the_constants_are_those_of_iapws() -> None:
    assert pytest.approx(333.43, abs=0.2) == FUSION
    assert float(_iapws._Ice(273.15, ATMOSPHERE)["rho"]) / 1000 == pytest.approx(ICE_DENSITY, abs=0.001)
    assert pytest.approx(float(IAPWS95(T=298.15, P=ATMOSPHERE).cp), rel=0.007) == WATER_HEAT


@pytest.mark.parametrize(("brix", "density"), [(10, 1038.12), (15, 1059.16), (20, 1080.98)])
def test_dissolved_sugar_takes_the_room_that_its_solution_has(brix: float, density: float) -> None:
    """ICUMSA density of sucrose at 20 °C (kg/m3); water 998.207 (IAPWS-95)."""
    solution_ml = 100 / density * 1000
    water_ml = (100 - brix) / 0.998207
    assert (solution_ml - water_ml) / brix == pytest.approx(DISSOLVED_ML_PER_G, abs=0.01)


@pytest.mark.parametrize(("brix", "joules"), [(10, 3.948), (30, 3.476), (60, 2.767)])
def test_sugar_lowers_specific_heat_as_in_the_bubnik_equation(brix: float, joules: float) -> None:
    """4184 - 2511 B + 7.5 B t at 20 °C (Llano 2005); ours leaves the small term in t out."""
    assert specific_heat(brix / 100) == pytest.approx(joules, rel=0.04)


def test_whole_milk_has_the_specific_heat_of_the_tables() -> None:
    assert specific_heat(0.119) == pytest.approx(3.85, rel=0.02)  # Geankoplis, app. A.4


def test_tea_syrup_pearls_and_ice_settle_as_reckoned_with_iapws() -> None:
    """Tea 240 g at 75, syrup 35 g of 60 °Bx at 20, pearls 60 g at 60 (35 % dry), ice 160 g at -18.

    By IAPWS for the water: 15.1 °C and 427 ml of liquid.
    """
    parts = [(240, 0.0, 75.0), (35, 0.6, 20.0), (60, 0.35, 60.0)]
    capacity = sum(mass * specific_heat(dry) for mass, dry, _ in parts)
    heat = sum(mass * specific_heat(dry) * at for mass, dry, at in parts)
    liquid_ml = 240 / 0.9749 + 35 / 1.2866  # water at 75 °C (IAPWS-95), syrup at 20 °C (ICUMSA)
    whole = Load(capacity, heat, liquid_ml, 275, 254, 52, 0, 160, 160 * ICE_HEAT * 18)
    settled = settle(whole)
    assert settled.temperature_c == pytest.approx(15.1, abs=1)
    assert settled.ice_left_g == 0
    assert settled.liquid_ml == pytest.approx(427, rel=0.015)


def test_a_hot_shake_with_much_ice_leaves_the_ice_that_iapws_leaves() -> None:
    """Tea 200 g at 70, syrup 40 g of 60 °Bx at 20, pearls 60 g at 55, ice 220 g at -18: 29.7 g left."""
    parts = [(200, 0.0, 70.0), (40, 0.6, 20.0), (60, 0.35, 55.0)]
    capacity = sum(mass * specific_heat(dry) for mass, dry, _ in parts)
    heat = sum(mass * specific_heat(dry) * at for mass, dry, at in parts)
    settled = settle(Load(capacity, heat, 236, 240, 216, 52, 0, 220, 220 * ICE_HEAT * 18))
    assert settled.temperature_c == 0
    assert settled.ice_left_g == pytest.approx(29.7, abs=4)
    assert settled.ice_ml == pytest.approx(32, abs=5)


def test_tea_milk_syrup_and_ice_settle_as_reckoned_with_iapws() -> None:
    """Tea 150 g at 80, milk 100 g at 4 (cp 3.85), syrup 30 g of 65 °Bx at 20, ice 120 g at -10: 6.8 °C."""
    parts = [(150, 0.0, 80.0), (100, 0.12, 4.0), (30, 0.65, 20.0)]
    capacity = sum(mass * specific_heat(dry) for mass, dry, _ in parts)
    heat = sum(mass * specific_heat(dry) * at for mass, dry, at in parts)
    temperature, melted = melt(capacity, heat, 248, 120, 120 * ICE_HEAT * 10)
    assert temperature == pytest.approx(6.8, abs=1)
    assert melted == 120


waters = st.floats(1, 1000)
warmths = st.floats(0, 100)
ices = st.floats(0, 1000)
colds = st.floats(-25, 0)


@given(waters, warmths, ices, ices, colds)
def test_more_ice_is_never_warmer(water: float, at: float, one: float, other: float, cold: float) -> None:
    less, more = sorted((one, other))
    assert ours(water, at, more, cold)[0] <= ours(water, at, less, cold)[0] + 1e-9


@given(waters, warmths, ices, colds, st.floats(0.05, 1))
def test_mass_and_heat_are_kept(water: float, at: float, ice: float, cold: float, share: float) -> None:
    heat, frost = water * WATER_HEAT * at, ice * ICE_HEAT * -cold
    temperature, melted = melt(water * WATER_HEAT, heat, water, ice, frost, share)
    assert -water <= melted <= ice
    if temperature >= 0:
        after = (water + melted) * WATER_HEAT * temperature + melted * FUSION
        assert after == pytest.approx(heat - frost if ice else heat, abs=1e-6 * (1 + heat + frost))


@given(st.floats(100, 500), st.floats(10, 95))
def test_nothing_jumps_where_the_last_ice_melts(water: float, at: float) -> None:
    just = water * WATER_HEAT * at / FUSION
    before, after = ours(water, at, just * 0.999999, 0), ours(water, at, just * 1.000001, 0)
    assert before[0] == pytest.approx(after[0], abs=0.01)
    assert before[1] == pytest.approx(after[1], rel=1e-5)
