"""Energy by the factors of the labels, from carbohydrate, protein, fat and fibre.

EU: Regulation (EU) 1169/2011 Annex XIV, where carbohydrate does not include fibre. US: the general Atwater
factors (Merrill and Watt, USDA Agriculture Handbook 74, 1973), where it does.
"""

from __future__ import annotations

from typing import Literal

Factors = Literal["EU", "US"]
"""By whose factors a book reckons energy."""

KJ_PER_KCAL = 4.184
"""The thermochemical calorie; US figures only: the EU has its own factors for kilojoules."""


def energy(
    factors: Factors, carbohydrate: float, protein: float, fat: float, fibre: float
) -> tuple[float, float]:
    """Kilojoules and kilocalories of these grams; ``carbohydrate`` without fibre."""
    if factors == "EU":
        return (
            17 * carbohydrate + 17 * protein + 37 * fat + 8 * fibre,
            4 * carbohydrate + 4 * protein + 9 * fat + 2 * fibre,
        )
    kilocalories = 4 * (carbohydrate + fibre) + 4 * protein + 9 * fat
    return KJ_PER_KCAL * kilocalories, kilocalories
