"""Densities of water and of sugar solutions, and how much room a solution takes.

Dissolved sugar takes far less room than it does in the scoop: a solution's volume is its mass over the
density of the tables, never the sum of the parts' volumes. Pure functions; degrees Celsius, g/ml, and
``brix`` in per cent by mass.
"""

from __future__ import annotations


def water_density(celsius: float) -> float:
    """Density of liquid water in g/ml, 0 to 100 °C at 101.325 kPa.

    Kell's rational polynomial (G. S. Kell, J. Chem. Eng. Data 20, 1975, 97-105; coefficients from
    memory, checked in the tests against IAPWS-95).
    """
    t = celsius
    top = 999.83952 + t * (
        16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12)))
    )
    return top / (1 + 16.879850e-3 * t) / 1000


def solution_density(brix: float, celsius: float) -> float:
    """Density in g/ml of a sucrose solution of 0 to 85 °Bx, 0 to 100 °C.

    The polynomial of the ICUMSA tables (Bubník, Kadlec, Urban and Bruhns, Sugar Technologists Manual,
    Bartens 1995, p. 164).
    """
    w = brix / 100
    t = (celsius - 20) / 100
    at_20 = w * (
        385.1761 + w * (135.3705 + w * (40.9299 + w * (-3.9643 + w * (13.4853 - w * 17.2890))))
    )  # fmt: skip
    first = w * (-46.2720 + w * (-7.1720 + w * (1.1597 + w * (5.1126 + w * 17.5254))))
    second = w * (59.7712 + w * (7.2491 + w * (12.3630 - w * 35.4791)))
    third = w * (-47.2207 + w * (-21.6977 + w * 27.6301))
    fourth = w * (18.3184 + w * 12.3081)
    return water_density(celsius) + (at_20 + t * (first + t * (second + t * (third + t * fourth)))) / 1000


def solution_volume(water_g: float, dissolved_g: float, celsius: float) -> float:
    """Millilitres taken by water with solids dissolved in it, all solids counted as sucrose.

    Milk solids, starches and tea solids are a few per cent of a drink and differ from sucrose by less
    than 10 % in the room they take (Choi and Okos 1986: carbohydrate 1.59, protein 1.32, fat 0.92 g/ml).
    """
    mass = water_g + dissolved_g
    return mass / solution_density(100 * dissolved_g / mass, celsius) if mass > 0 else 0.0


def solution_heat_capacity(sugar_fraction: float, celsius: float) -> float:
    """Specific heat in J/(g K) of a pure sucrose solution; ``sugar_fraction`` by mass, 0 to 0.85.

    Bubník's equation at purity 1 in the form of Llano (2005).
    """
    b = sugar_fraction
    return (4184 - 2511 * b + 7.5 * b * celsius) / 1000
