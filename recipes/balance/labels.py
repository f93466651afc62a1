"""How nutrition figures are rounded on a label, by the rules of the EU and of the US.

EU: European Commission, guidance on tolerances for nutrient values declared on a label (December 2012).
US: 21 CFR 101.9(c). Ties go up: neither text settles them.
"""

from __future__ import annotations

import math

from recipes.balance.energy import Factors


def nearest(number: float, step: float) -> float:
    """``number`` rounded to a multiple of ``step``, ties up."""
    return math.floor(number / step + 0.5 + 1e-9) * step


def energy_words(factors: Factors, kilojoules: float, kilocalories: float) -> str:
    """Energy as a label has it: "1284 kJ / 306 kcal" in the EU, "310 Calories" in the US."""
    if factors == "EU":
        return f"{nearest(kilojoules, 1):.0f} kJ / {nearest(kilocalories, 1):.0f} kcal"
    return f"{us_calories(kilocalories)} Calories"


def us_calories(kilocalories: float) -> int:
    """21 CFR 101.9(c)(1): below 5 none, to 50 the nearest 5, above the nearest 10."""
    if kilocalories < 5:
        return 0
    return int(nearest(kilocalories, 5 if kilocalories <= 50 else 10))


def grams_words(factors: Factors, grams: float, fat: bool = False) -> str:
    """Grams of fat, carbohydrate, sugars or protein as a label has them: "12 g", "3.4 g", "less than 1 g"."""
    if factors == "US" and fat:
        return "0 g" if grams < 0.5 else f"{nearest(grams, 0.5 if grams < 5 else 1):g} g"
    if factors == "US":
        return "0 g" if grams < 0.5 else "less than 1 g" if grams < 1 else f"{nearest(grams, 1):g} g"
    if grams <= 0.5:
        return "<0.5 g"
    return f"{nearest(grams, 1 if grams >= 10 else 0.1):g} g"
