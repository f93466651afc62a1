"""Mass, volume and heat of what is in the cup, and where it settles.

Heat is reckoned in joules above liquid water at 0 °C, with constant properties:

- water 4.19 J/(g K), ice 2.05 J/(g K), fusion 333.4 J/g: within 0.7 %, 1 % and 0.3 % of IAPWS-95 and
  IAPWS R10-06 over the range of a bar;
- dry matter lowers the specific heat as in a sugar solution, 4.19 - 2.511 w J/(g K) with w the dry
  matter g/g (the linear term of the Bubník equation in Llano's form, 2005);
- a gram of dry matter takes 0.62 ml once dissolved (from the densities of 10 and 20 °Bx sucrose, ICUMSA).

The freezing point is taken as 0 °C, the cup and the air as taking no heat.
"""

from __future__ import annotations

from dataclasses import dataclass

from recipes.book import Ingredient

WATER_HEAT = 4.19
"""Specific heat of water, J/(g K)."""

ICE_HEAT = 2.05
"""Specific heat of ice, J/(g K)."""

FUSION = 333.4
"""Heat that melts one gram of ice at 0 °C, J/g."""

DRY_HEAT_LOSS = 2.511
"""How much specific heat falls per gram of dry matter in a gram, J/(g K)."""

DISSOLVED_ML_PER_G = 0.62
"""Room that a gram of dissolved dry matter takes, ml/g."""

ICE_DENSITY = 0.917
"""Solid ice, g/ml (IAPWS R10-06: 0.9167 at 0 °C)."""


@dataclass(frozen=True, slots=True)
class Load:
    """What lies together in the cup before it settles. Loads add up and scale.

    ``capacity`` J/K and ``heat`` J (above 0 °C) of everything but ice; ``liquid_ml``, ``liquid_g`` and the
    ``water_g`` in it that could freeze; ``body_ml`` the room of topping pieces; ``foam_ml``; ``ice_g`` and
    ``ice_cold``, the J it takes to warm that ice to 0 °C.
    """

    capacity: float = 0.0
    heat: float = 0.0
    liquid_ml: float = 0.0
    liquid_g: float = 0.0
    water_g: float = 0.0
    body_ml: float = 0.0
    foam_ml: float = 0.0
    ice_g: float = 0.0
    ice_cold: float = 0.0

    def __add__(self, other: Load) -> Load:
        return Load(
            self.capacity + other.capacity,
            self.heat + other.heat,
            self.liquid_ml + other.liquid_ml,
            self.liquid_g + other.liquid_g,
            self.water_g + other.water_g,
            self.body_ml + other.body_ml,
            self.foam_ml + other.foam_ml,
            self.ice_g + other.ice_g,
            self.ice_cold + other.ice_cold,
        )

    def __mul__(self, share: float) -> Load:
        return Load(
            self.capacity * share,
            self.heat * share,
            self.liquid_ml * share,
            self.liquid_g * share,
            self.water_g * share,
            self.body_ml * share,
            self.foam_ml * share,
            self.ice_g * share,
            self.ice_cold * share,
        )

    @property
    def unmelted_ml(self) -> float:
        """What fills the mixing vessel before anything melts: liquid and whole ice, no topping."""
        return self.liquid_ml + self.ice_g / ICE_DENSITY


@dataclass(frozen=True, slots=True)
class Settled:
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


def specific_heat(dry: float) -> float:
    """J/(g K) of something with ``dry`` g/g dry matter."""
    return WATER_HEAT - DRY_HEAT_LOSS * dry


def load(ingredient: Ingredient, volume_ml: float, temperature_c: float, foam_ml: float = 0.0) -> Load:
    """``volume_ml`` of an ingredient, as its tool measures it, at a temperature."""
    mass = volume_ml * ingredient.density
    if ingredient.kind == "ice":
        return Load(ice_g=mass, ice_cold=mass * ICE_HEAT * max(0.0, -temperature_c))
    capacity = mass * specific_heat(ingredient.dry)
    heat = capacity * temperature_c
    if ingredient.kind == "topping":
        return Load(capacity=capacity, heat=heat, body_ml=mass / ingredient.body_density)
    dry = mass * ingredient.dry
    room = mass - dry + dry * DISSOLVED_ML_PER_G if ingredient.kind == "powder" else volume_ml
    return Load(capacity, heat, room, mass, mass - dry, foam_ml=foam_ml)


def settle(load: Load, share: float = 1.0) -> Settled:
    """Where the load comes to rest when ``share`` of the melting at equilibrium has happened."""
    temperature, melted = melt(load.capacity, load.heat, load.water_g, load.ice_g, load.ice_cold, share)
    left = max(0.0, load.ice_g - melted)
    return Settled(
        temperature_c=temperature,
        melted_g=melted,
        ice_left_g=left,
        liquid_ml=load.liquid_ml + melted,
        ice_ml=left / ICE_DENSITY,
        body_ml=load.body_ml,
        foam_ml=load.foam_ml,
    )


def melt(
    capacity: float, heat: float, water_g: float, ice_g: float, ice_cold: float, share: float = 1.0
) -> tuple[float, float]:
    """Temperature °C and melted grams by an energy balance; melted is negative when water freezes.

    The four cases: all ice melts and the drink ends above 0 °C; some melts; the ice is so cold that some
    water freezes; everything ends solid below 0 °C.
    """
    if ice_g <= 0:
        return (heat / capacity if capacity > 0 else 0.0), 0.0
    spare = heat - ice_cold
    if spare >= 0:
        if share == 1 and spare <= ice_g * FUSION:
            return 0.0, spare / FUSION
        melted = share * min(ice_g, spare / FUSION)
        return (spare - melted * FUSION) / (capacity + melted * WATER_HEAT), melted
    frozen = -spare / FUSION
    if frozen <= water_g:
        return 0.0, -frozen
    solid = (ice_g + water_g) * ICE_HEAT + max(0.0, capacity - water_g * WATER_HEAT)
    return (spare + water_g * FUSION) / solid, -water_g
