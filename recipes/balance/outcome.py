"""What goes in, added up: sugars, caffeine, energy, strength, cost, allergens; and the balance of a build."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from recipes.balance.load import Settled
from recipes.book import Ingredient
from recipes.model import Balance


@dataclass(frozen=True, slots=True)
class Sums:
    """What some ingredients bring together, in grams, mg, kJ, kcal and minor units.

    ``dissolved_g`` are the sugars in the liquid, ``tea_g`` tea as brewed, ``water_g`` what is nothing but
    water.
    """

    liquid_g: float = 0.0
    ice_g: float = 0.0
    sugars_g: float = 0.0
    dissolved_g: float = 0.0
    added_g: float = 0.0
    dry_g: float = 0.0
    tea_g: float = 0.0
    water_g: float = 0.0
    caffeine_mg: float = 0.0
    energy_kj: float = 0.0
    energy_kcal: float = 0.0
    cost: float = 0.0


def sums(used: Iterable[tuple[Ingredient, float, bool]]) -> Sums:
    """Add up ingredients with their grams; the flag tells an added sweetener."""
    liquid = ice = sugars = dissolved = added = dry = tea = water = caffeine = kj = kcal = cost = 0.0
    for ingredient, grams, sweetener in used:
        sugars += grams * ingredient.sugars
        caffeine += grams * ingredient.caffeine
        kj += grams * ingredient.energy_kj / 100
        kcal += grams * ingredient.energy_kcal / 100
        cost += grams * ingredient.price_per_kg / 1000
        added += grams * ingredient.sugars if sweetener else 0.0
        if ingredient.kind == "ice":
            ice += grams
        elif ingredient.kind != "topping":
            liquid += grams
            dissolved += grams * ingredient.sugars
            dry += grams * ingredient.dry
            tea += grams if ingredient.kind == "tea" else 0.0
            water += 0.0 if ingredient.tastes else grams
    return Sums(liquid, ice, sugars, dissolved, added, dry, tea, water, caffeine, kj, kcal, cost)


def rounded(number: float) -> float:
    """Rounded far below what matters, so that the same build prints the same everywhere."""
    return round(number, 4) + 0.0


def balance(drink: Sums, toppings: Sums, settled: Settled, net_price: float) -> Balance:
    """The balance of a drink and its toppings once settled; ``net_price`` in minor units, without tax.

    Sugars of toppings count in ``sugars_g`` but not in the liquid's ``brix``.
    """
    liquid = drink.liquid_g + settled.melted_g
    per = 100 / liquid if liquid > 0 else 0.0
    kilojoules, kilocalories = drink.energy_kj + toppings.energy_kj, drink.energy_kcal + toppings.energy_kcal
    cost = drink.cost + toppings.cost
    # Only what may be below nothing needs care with a minus before its nought.
    return Balance(
        temperature_c=rounded(settled.temperature_c),
        liquid_g=round(liquid, 4),
        liquid_ml=round(settled.liquid_ml, 4),
        melted_g=rounded(settled.melted_g),
        ice_left_g=round(settled.ice_left_g, 4),
        sugars_g=round(drink.sugars_g + toppings.sugars_g, 4),
        added_sugars_g=round(drink.added_g, 4),
        brix=round(drink.dissolved_g * per, 4),
        caffeine_mg=round(drink.caffeine_mg + toppings.caffeine_mg, 4),
        energy_kj=round(kilojoules, 4),
        energy_kcal=round(kilocalories, 4),
        ice_g=round(drink.ice_g, 4),
        added_brix=round(drink.added_g * per, 4),
        dry_g=round(drink.dry_g, 4),
        dry_pct=round(drink.dry_g * per, 4),
        tea_pct=round(drink.tea_g * per, 4),
        dilution_pct=round((drink.water_g + max(0.0, settled.melted_g)) * per, 4),
        cost=round(cost, 4),
        margin=rounded(net_price - cost),
    )
