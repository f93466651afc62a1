"""Water and sugar solutions against the published tables and an independent library."""

from __future__ import annotations

import pytest
from CoolProp.CoolProp import PropsSI
from iapws import IAPWS95

from recipes.balance.heat import solution_heat
from recipes.balance.load import liquid_volume
from recipes.balance.sucrose import solution_density, water_density


@pytest.mark.parametrize("celsius", [0.01, 4, 10, 20, 25, 40, 60, 80, 90, 99])
def test_water_is_as_dense_as_iapws_95_has_it(celsius: float) -> None:
    reference = IAPWS95(T=273.15 + celsius, P=0.101325).rho / 1000
    # Kell is on the temperature scale of 1968: up to 0.03 °C, or 2e-5 g/ml, near the boil.
    assert water_density(celsius) == pytest.approx(reference, abs=2e-5)


@pytest.mark.parametrize("celsius", [1, 4, 20, 40, 60, 80, 95])
def test_water_is_as_dense_and_takes_as_much_heat_as_a_second_library_has_it(celsius: float) -> None:
    """CoolProp's water; the heat it takes from 0 °C on is within 1 % of that of a solution without sugar."""
    density = PropsSI("D", "T", 273.15 + celsius, "P", 101_325, "Water") / 1000
    enthalpy, none = (PropsSI("H", "T", 273.15 + t, "P", 101_325, "Water") / 1000 for t in (celsius, 0.01))
    assert water_density(celsius) == pytest.approx(density, abs=2e-5)
    assert solution_heat(0.0, celsius) * (celsius - 0.01) == pytest.approx(enthalpy - none, rel=0.01)


# CRC Handbook of Chemistry and Physics, "Concentrative properties of aqueous solutions", sucrose at 20 °C.
@pytest.mark.parametrize(
    ("brix", "density"),
    [
        (5, 1.0178),
        (10, 1.0381),
        (15, 1.0592),
        (20, 1.0810),
        (30, 1.1270),
        (40, 1.1765),
        (50, 1.2295),
        (60, 1.2864),
        (70, 1.3472),
    ],
)
def test_a_sugar_solution_is_as_dense_as_the_crc_table_has_it(brix: float, density: float) -> None:
    assert solution_density(brix, 20) == pytest.approx(density, abs=4e-4)


@pytest.mark.parametrize(("celsius", "density"), [(4, 1.2939), (40, 1.2763), (60, 1.2647), (80, 1.2520)])
def test_a_warm_syrup_is_lighter_as_the_icumsa_tables_have_it(celsius: float, density: float) -> None:
    """60 °Bx; Bubník et al., Sugar Technologists Manual, 1995, p. 164."""
    assert solution_density(60, celsius) == pytest.approx(density, abs=1e-3)


@pytest.mark.parametrize(("brix", "grams_per_litre"), [(10, 103.8), (30, 338.1), (60, 771.9)])
def test_a_litre_holds_the_sugar_of_the_crc_table(brix: float, grams_per_litre: float) -> None:
    litre = liquid_volume(100, brix, 20)
    assert brix / litre * 1000 == pytest.approx(grams_per_litre, rel=3e-3)


@pytest.mark.parametrize(
    ("brix", "syrup_g", "sugar_g"), [(60, 9.006, 5.404), (65, 9.216, 5.990), (70, 9.432, 6.603)]
)
def test_a_seven_ml_stroke_of_syrup_weighs_what_its_density_says(
    brix: float, syrup_g: float, sugar_g: float
) -> None:
    """Worked from the ICUMSA polynomial at 20 °C."""
    stroke = 7 * solution_density(brix, 20)
    assert stroke == pytest.approx(syrup_g, rel=3e-3)
    assert stroke * brix / 100 == pytest.approx(sugar_g, rel=3e-3)


@pytest.mark.parametrize(("fraction", "joules"), [(0.10, 3.948), (0.30, 3.476), (0.60, 2.767)])
def test_a_syrup_takes_less_heat_than_water(fraction: float, joules: float) -> None:
    """Worked values of the same equation at 20 °C, Llano (2005): it is linear, so the mean to 40 °C."""
    assert solution_heat(fraction, 40) == pytest.approx(joules, rel=0.02)


def test_dissolving_takes_less_room_than_standing_side_by_side() -> None:
    """90 g water and 10 g sugar (0.85 g/ml in the scoop, FAO/INFOODS): 96.3 ml, not 102 ml."""
    assert liquid_volume(100, 10, 20) == pytest.approx(100 / 1.0381, rel=1e-3)
    assert liquid_volume(100, 10, 20) < 90 / 0.9982 + 10 / 0.85


def test_nothing_takes_no_room() -> None:
    assert liquid_volume(0, 0, 20) == 0
