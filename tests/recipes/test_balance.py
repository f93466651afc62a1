"""Heat, mass and volume against IAPWS-95, IAPWS R10-06 and the ICUMSA density of sugar solutions.

The expected figures of the worked examples were reckoned with the iapws library, which is asked here too.
"""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from iapws import IAPWS95, _iapws

from recipes.balance.heat import (
    FUSION,
    ICE_DENSITY,
    ICE_HEAT,
    WATER_HEAT,
    chilling_extent,
    food_heat,
    melt,
    solution_heat,
)  # fmt: skip
from recipes.balance.load import Load, liquid_volume, settle

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


@pytest.mark.parametrize(("brix", "joules"), [(10, 3.948), (30, 3.476), (60, 2.767)])
def test_sugar_lowers_specific_heat_as_in_the_bubnik_equation(brix: float, joules: float) -> None:
    """4184 - 2511 B + 7.5 B t at 20 °C (Llano 2005); a mean from 0 to 40 °C is that at 20 °C."""
    assert solution_heat(brix / 100, 40) == pytest.approx(joules, rel=0.02)


def test_foods_have_the_specific_heat_of_the_tables() -> None:
    """Geankoplis, Transport Processes, app. A.4: whole milk 3.85, skim milk 3.98 to 4.02 J/(g K)."""
    assert food_heat(0.8813, 0.0315, 0.0325, 0.048, 20) == pytest.approx(3.85, rel=0.02)
    assert food_heat(0.909, 0.034, 0.001, 0.05, 20) == pytest.approx(4.0, rel=0.05)


@pytest.mark.parametrize(("part", "at_20"), [(0, 4.1293), (1, 2.0319), (2, 2.0118), (3, 1.5857)])
def test_components_have_the_specific_heat_of_choi_and_okos(part: int, at_20: float) -> None:
    """Their polynomials at 20 °C for water, protein, fat, carbohydrate: the slope of the heat there."""
    shares = [0.0] * 4
    shares[part] = 1.0
    water, protein, fat, carbohydrate = shares
    heats = [food_heat(water, protein, fat, carbohydrate, t) * t for t in (19.99, 20.01)]
    assert (heats[1] - heats[0]) / 0.02 == pytest.approx(at_20, abs=2e-4)


def syrup(mass: float, brix: float, celsius: float) -> Load:
    """A sucrose solution."""
    capacity = mass * solution_heat(brix / 100, celsius)
    return Load(mass, mass * brix / 100, capacity, capacity * celsius)


def pearls(mass: float, celsius: float) -> Load:
    """Cooked pearls of 35 % carbohydrate, 1.15 g/ml."""
    capacity = mass * food_heat(0.65, 0, 0, 0.35, celsius)
    return Load(capacity=capacity, heat=capacity * celsius, body_ml=mass / 1.15)


def ice(mass: float, celsius: float) -> Load:
    """Ice below 0 °C."""
    return Load(ice_g=mass, ice_cold=mass * ICE_HEAT * -celsius)


def together(*loads: Load) -> Load:
    """All of it in one cup."""
    whole = Load()
    for each in loads:
        whole = whole.plus(each)
    return whole


def test_tea_syrup_pearls_and_ice_settle_as_reckoned_with_iapws() -> None:
    """Tea 240 g at 75, syrup 35 g of 60 °Bx at 20, pearls 60 g at 60 (35 % dry), ice 160 g at -18.

    By IAPWS for the water: 15.1 °C; 435.0 g, 4.83 °Bx and 427 ml of liquid; pearls add 52 ml.
    """
    whole = together(syrup(240, 0, 75), syrup(35, 60, 20), pearls(60, 60), ice(160, -18))
    settled = settle(whole)
    assert settled.temperature_c == pytest.approx(15.1, abs=1)
    assert settled.ice_left_g == 0
    assert whole.mass_g + settled.melted_g == pytest.approx(435)
    assert 100 * whole.dry_g / 435 == pytest.approx(4.83, abs=0.05)
    assert settled.liquid_ml == pytest.approx(427, rel=0.015)
    assert settled.body_ml == pytest.approx(52, abs=1)


def test_a_hot_shake_with_much_ice_leaves_the_ice_that_iapws_leaves() -> None:
    """Tea 200 g at 70, syrup 40 g of 60 °Bx at 20, pearls 60 g at 55, ice 220 g at -18: 29.7 g left."""
    whole = together(syrup(200, 0, 70), syrup(40, 60, 20), pearls(60, 55), ice(220, -18))
    settled = settle(whole)
    liquid = whole.mass_g + settled.melted_g
    assert settled.temperature_c == 0
    assert settled.ice_left_g == pytest.approx(29.7, abs=4)
    assert liquid == pytest.approx(430.3, abs=4)
    assert 100 * whole.dry_g / liquid == pytest.approx(5.58, abs=0.1)
    assert settled.liquid_ml == pytest.approx(421, rel=0.015)
    assert settled.ice_ml == pytest.approx(32, abs=5)


def test_tea_milk_syrup_and_ice_settle_as_reckoned_with_iapws() -> None:
    """Tea 150 g at 80, milk 100 g at 4 (cp 3.85), syrup 30 g of 65 °Bx at 20, ice 120 g at -10: 6.8 °C."""
    milk = Load(100, 12, 385, 385 * 4)
    settled = settle(together(syrup(150, 0, 80), milk, syrup(30, 65, 20), ice(120, -10)))
    assert settled.temperature_c == pytest.approx(6.8, abs=1)
    assert settled.melted_g == 120


@pytest.mark.parametrize(("celsius", "brix"), [(4, 60), (20, 10), (20, 30), (20, 70), (80, 60)])
def test_a_solution_takes_the_room_of_the_tables(celsius: int, brix: int) -> None:
    """ICUMSA (Bubník and others, 1995): kg/m3; the sum of the volumes of sugar and water is larger."""
    tables = {(4, 60): 1293.9, (20, 10): 1038.12, (20, 30): 1127.03, (20, 70): 1347.48, (80, 60): 1252.0}
    volume = liquid_volume(100, brix, celsius)
    assert volume == pytest.approx(100_000 / tables[celsius, brix], rel=0.0008)
    apart = (100 - brix) / 0.99821 + brix / 1.5805  # solid sucrose 1.5805 g/ml (CRC Handbook)
    assert celsius != 20 or volume < apart


def test_how_far_a_shake_gets_is_found_with_a_thermometer_and_a_jug() -> None:
    """300 g at 85 °C on 300 g of ice at -18: an ideal shake ends at 0 °C; half the melt leaves it warm."""
    for share in (0.3, 0.75, 1.0):
        water = 300 * WATER_HEAT
        end, _ = melt(water, water * 85, 300, 300, 300 * ICE_HEAT * 18, share)
        assert chilling_extent(300, 85, 300, -18, end) == pytest.approx(share)


@pytest.mark.parametrize(
    ("readings", "message"),
    [
        ((0, 20, 100, 0, 5), "both above 0 g"),
        ((200, -1, 100, 0, 5), "ice -40 to 0"),
        ((200, 20, 100, 5, 5), "ice -40 to 0"),
        ((10, 1, 400, -20, 0), "less or warmer ice"),
        ((200, 20, 100, 0, 25), "cannot do"),
    ],
)
def test_readings_that_cannot_be_are_refused(readings: tuple[float, ...], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        chilling_extent(*readings)


waters = st.floats(1, 1000)
warmths = st.floats(0, 100)
ices = st.floats(0, 1000)
colds = st.floats(-25, 0)


@given(waters, warmths, ices, ices, colds)
def test_more_ice_is_never_warmer(water: float, at: float, one: float, other: float, cold: float) -> None:
    less, more = sorted((one, other))
    assert ours(water, at, more, cold)[0] <= ours(water, at, less, cold)[0] + 1e-9


@given(waters, warmths, ices, colds, st.floats(0.05, 1))
def test_mass_and_heat_are_kept(water: float, at: float, ice_g: float, cold: float, share: float) -> None:
    """To one part in a thousand million of the heat that moves."""
    heat, frost = water * WATER_HEAT * at, ice_g * ICE_HEAT * -cold
    settled = settle(Load(water, 0, water * WATER_HEAT, heat, ice_g, frost), share)
    melted, temperature = settled.melted_g, settled.temperature_c
    assert -water <= melted <= ice_g
    left = ice_g - melted if melted < 0 else settled.ice_left_g
    assert water + melted + left == pytest.approx(water + ice_g, rel=1e-9)
    warm = water + melted if temperature >= 0 else 0.0
    solid = 0.0 if temperature >= 0 else (water + ice_g) * ICE_HEAT * temperature
    after = warm * WATER_HEAT * temperature + melted * FUSION + solid
    before = heat - frost if ice_g else heat
    assert after == pytest.approx(before, abs=1e-9 * (1 + heat + frost + abs(melted) * FUSION))


@given(st.floats(100, 500), st.floats(10, 95))
def test_nothing_jumps_where_the_last_ice_melts(water: float, at: float) -> None:
    just = water * WATER_HEAT * at / FUSION
    before, after = ours(water, at, just * 0.999999, 0), ours(water, at, just * 1.000001, 0)
    assert before[0] == pytest.approx(after[0], abs=0.01)
    assert before[1] == pytest.approx(after[1], rel=1e-5)
