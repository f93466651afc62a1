"""Densities of water and of sugar solutions: pure functions; °C, g/ml, ``brix`` in per cent by mass."""

from __future__ import annotations


def water_density(celsius: float) -> float:
    """Density of liquid water in g/ml, 0 to 100 °C at 101.325 kPa.

    Kell's rational polynomial (G. S. Kell, J. Chem. Eng. Data 20, 1975, 97-105), checked in the tests
    against IAPWS-95.
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
