"""What lies together in a vessel or cup, and where it settles: temperature, melt, and the room of it all."""

from __future__ import annotations

from typing import NamedTuple

from recipes.balance.heat import (
    ICE_DENSITY,
    ICE_HEAT,
    WATER_HEAT,
    food_heat,
    melt,
    solution_heat,
    steam_taken,
)
from recipes.balance.sucrose import solution_density
from recipes.book import Ingredient

ICE_PACKED = 0.605
"""The share of an ice scoop that is ice, the rest being air between the cubes: random packing of cubes leaves
0.33 to 0.46 of the room empty, so 0.605 is good to a tenth; weigh a scoop to know better."""

MOST_BRIX = 85.0
"""The tables of solutions end here; powder with hardly any water is reckoned as this dense."""


class Load(NamedTuple):
    """What lies together before it settles. Loads add up and scale.

    ``mass_g`` of the liquid with the ``dry_g`` dissolved in it; ``capacity`` J/K and ``heat`` J (above 0 °C)
    of everything but ice; ``ice_g`` and ``ice_cold``, the J it takes to warm that ice to 0 °C; ``body_ml``
    the room of topping pieces; ``foam_ml``.
    """

    mass_g: float = 0.0
    dry_g: float = 0.0
    capacity: float = 0.0
    heat: float = 0.0
    ice_g: float = 0.0
    ice_cold: float = 0.0
    body_ml: float = 0.0
    foam_ml: float = 0.0

    def plus(self, other: Load, times: float = 1.0) -> Load:
        """This and ``times`` the other together."""
        return Load(
            self.mass_g + other.mass_g * times,
            self.dry_g + other.dry_g * times,
            self.capacity + other.capacity * times,
            self.heat + other.heat * times,
            self.ice_g + other.ice_g * times,
            self.ice_cold + other.ice_cold * times,
            self.body_ml + other.body_ml * times,
            self.foam_ml + other.foam_ml * times,
        )

    @property
    def unmelted_ml(self) -> float:
        """What fills the mixing vessel before anything melts: liquid and whole ice, no topping."""
        celsius = self.heat / self.capacity if self.capacity > 0 else 0.0
        return liquid_volume(self.mass_g, self.dry_g, celsius) + self.ice_g / ICE_DENSITY


class Settled(NamedTuple):
    """Where a load comes to rest: temperature °C, what melted (negative when water froze), what is where."""

    temperature_c: float
    melted_g: float
    ice_left_g: float
    liquid_ml: float
    ice_ml: float
    body_ml: float
    foam_ml: float

    @property
    def filled_ml(self) -> float:
        """All the room taken in the cup."""
        return self.liquid_ml + self.ice_ml + self.body_ml + self.foam_ml


def specific_heat(ingredient: Ingredient, celsius: float) -> float:
    """Mean specific heat of an ingredient from 0 to ``celsius``, J/(g K).

    Teas, syrups and fruit are sugar solutions; milks, powders and toppings go by their components, what
    the label leaves unnamed of the dry matter counting as carbohydrate.
    """
    if ingredient.kind in ("milk", "powder", "topping"):
        rest = max(0.0, ingredient.dry - ingredient.protein - ingredient.fat)
        return food_heat(1 - ingredient.dry, ingredient.protein, ingredient.fat, rest, celsius)
    return solution_heat(ingredient.dry, celsius)


def load_of(ingredient: Ingredient, volume_ml: float, celsius: float, foam_ml: float = 0.0) -> Load:
    """``volume_ml`` of an ingredient, as its tool measures it, at a temperature."""
    mass = volume_ml * ingredient.density
    if ingredient.kind == "ice":
        return Load(ice_g=mass, ice_cold=mass * ICE_HEAT * max(0.0, -celsius))
    capacity = mass * specific_heat(ingredient, celsius)
    heat = capacity * celsius
    if ingredient.kind == "topping":
        return Load(capacity=capacity, heat=heat, body_ml=mass / ingredient.body_density)
    return Load(mass, mass * ingredient.dry, capacity, heat, foam_ml=foam_ml)


def steamed_load(ingredient: Ingredient, volume_ml: float, from_c: float, to_c: float) -> Load:
    """``volume_ml`` of an ingredient, measured cold and steamed from ``from_c`` to ``to_c``, with the steam
    in it.
    """
    warm = load_of(ingredient, volume_ml, to_c)
    needed = warm.heat - load_of(ingredient, volume_ml, from_c).heat
    water = steam_taken(needed, to_c)
    return warm.plus(Load(mass_g=water, capacity=water * WATER_HEAT, heat=water * WATER_HEAT * to_c))


def liquid_volume(mass_g: float, dry_g: float, celsius: float) -> float:
    """Room of a liquid by the density of its solids taken as sucrose, never the sum of the parts' volumes.

    Milk solids, starches and tea solids are a few per cent of a drink and differ from sucrose by less than
    10 % in the room they take (Choi and Okos 1986: carbohydrate 1.59, protein 1.32, fat 0.92 g/ml).
    """
    if mass_g <= 0:
        return 0.0
    brix = 100 * dry_g / mass_g
    # Plain comparisons: a search asks this a million times.
    celsius = 0.0 if celsius < 0 else 100.0 if celsius > 100 else celsius
    return mass_g / solution_density(MOST_BRIX if brix > MOST_BRIX else brix, celsius)


def rest(
    mass_g: float,
    dry_g: float,
    capacity: float,
    heat: float,
    ice_g: float,
    ice_cold: float,
    share: float,
) -> tuple[float, float, float]:
    """Temperature °C, melted g and the liquid's ml once ``share`` of the melting has happened."""
    celsius, melted = melt(capacity, heat, mass_g - dry_g, ice_g, ice_cold, share)
    return celsius, melted, liquid_volume(mass_g + melted, dry_g, celsius)


def settle(load: Load, share: float = 1.0) -> Settled:
    """Where the load comes to rest when ``share`` of the melting at equilibrium has happened."""
    celsius, melted, liquid = rest(
        load.mass_g, load.dry_g, load.capacity, load.heat, load.ice_g, load.ice_cold, share
    )
    left = max(0.0, load.ice_g - melted)
    return Settled(celsius, melted, left, liquid, left / ICE_DENSITY, load.body_ml, load.foam_ml)
