"""Heat: specific heats, how much ice melts, and how far a station gets with melting it.

Heat is reckoned in joules above liquid water at 0 °C. The freezing point is taken as 0 °C (a drink of 10 %
sugar freezes at -0.6 °C, so the error stays under 1 °C), the cup and the air as taking no heat.
"""

from __future__ import annotations

WATER_HEAT = 4.19
"""Specific heat of water, J/(g K): within 0.7 % of IAPWS-95 from 0 to 100 °C."""

ICE_HEAT = 2.05
"""Specific heat of ice, J/(g K): within 1 % of the mean of IAPWS R10-06 from -18 to 0 °C."""

FUSION = 333.4
"""Heat that melts one gram of ice at 0 °C, J/g (IAPWS-95 less IAPWS R10-06: 333.43)."""

STEAM_HEAT, STEAM_DRYNESS = 2710.6, 0.95
"""Enthalpy of dry steam at 2.2 bar, J/g above water at 0 °C, and the share of it that is steam, not droplets.

2710.6 of which 2193.0 latent: IAPWS-IF97. The dryness is common practice for a small machine."""

STEAM_LATENT = 2193.0

ICE_DENSITY = 0.917
"""Solid ice, g/ml (IAPWS R10-06: 0.9167 at 0 °C)."""


def solution_heat(dry: float, celsius: float) -> float:
    """Mean specific heat from 0 to ``celsius`` of a sugar solution with ``dry`` g/g, J/(g K).

    4184 - 2511 B + 7.5 B t (the Bubník equation at purity 1, in the form of Llano, 2005), its mean over the
    range, on this module's water.
    """
    return WATER_HEAT - 2.511 * dry + 0.00375 * dry * celsius


def food_heat(water: float, protein: float, fat: float, carbohydrate: float, celsius: float) -> float:
    """Mean specific heat from 0 to ``celsius`` of a food by its components in g/g, J/(g K).

    Choi and Okos (1986), Food Engineering and Process Applications vol. 1; also ASHRAE Handbook,
    Refrigeration, ch. 19. The means of their polynomials over the range.
    """
    half, third = celsius / 2, celsius * celsius / 3
    return (
        water * (4.1289 - 9.0864e-5 * half + 5.4731e-6 * third)
        + protein * (2.0082 + 1.2089e-3 * half - 1.3129e-6 * third)
        + fat * (1.9842 + 1.4733e-3 * half - 4.8008e-6 * third)
        + carbohydrate * (1.5488 + 1.9625e-3 * half - 5.9399e-6 * third)
    )


def melt(
    capacity: float, heat: float, water_g: float, ice_g: float, ice_cold: float, share: float = 1.0
) -> tuple[float, float]:
    """Temperature °C and melted grams by an energy balance; melted is negative when water freezes.

    ``capacity`` J/K and ``heat`` J of everything but ice, ``water_g`` of it that could freeze, ``ice_cold``
    J to warm the ice to 0 °C, ``share`` of the melting at equilibrium that happens. The four cases: all ice
    melts and the drink ends above 0 °C; some melts; the ice is so cold that some water freezes; everything
    ends solid below 0 °C. Continuous across their thresholds.
    """
    if ice_g <= 0:
        return (heat / capacity if capacity > 0 else 0.0), 0.0
    spare = heat - ice_cold
    if spare >= 0:
        if share == 1 and spare <= ice_g * FUSION:
            return 0.0, spare / FUSION
        melted = share * min(ice_g, spare / FUSION)
        warm = capacity + melted * WATER_HEAT
        return (spare - melted * FUSION) / warm if warm > 0 else 0.0, melted
    frozen = -spare / FUSION
    if frozen <= water_g:
        return 0.0, -frozen
    solid = (ice_g + water_g) * ICE_HEAT + max(0.0, capacity - water_g * WATER_HEAT)
    return (spare + water_g * FUSION) / solid, -water_g


def steam_taken(needed_j: float, to_c: float) -> float:
    """Grams of steam that bring ``needed_j`` of heat to a milk and stay in it as water at ``to_c``.

    m (h - h_water) = Q with h = h_g - (1 - x) r of wet steam. From 4 to 65 °C about a tenth of the milk; a
    cold steel jug takes a hundredth more, which is left out."""
    wet = STEAM_HEAT - (1 - STEAM_DRYNESS) * STEAM_LATENT
    return needed_j / (wet - WATER_HEAT * to_c)


def chilling_extent(liquid_g: float, start_c: float, ice_g: float, ice_c: float, end_c: float) -> float:
    """How far a station got with chilling: the share of the melting at equilibrium, 0 to 1.

    To measure it at the bar: weigh ``liquid_g`` of water or tea into the vessel and ``ice_g`` of ice at
    ``ice_c`` (a freezer's thermometer; drained ice from a bin is 0), note ``start_c``, work as for a drink
    (shake 30 to 60 s, or stir), strain into a jug and read ``end_c`` at once. What melted follows from the
    temperature. Raises ``ValueError`` naming the reading that cannot be.
    """
    if not (liquid_g > 0 and ice_g > 0):
        raise ValueError(f"liquid {liquid_g:g} g with ice {ice_g:g} g; accepted: both above 0 g")
    if not -40 <= ice_c <= 0 < start_c <= 100:
        raise ValueError(
            f"ice at {ice_c:g} °C in liquid at {start_c:g} °C; accepted: ice -40 to 0, liquid above 0 to 100"
        )
    spare = liquid_g * WATER_HEAT * start_c - ice_g * ICE_HEAT * -ice_c
    most = min(ice_g, spare / FUSION)
    if most <= 0:
        raise ValueError(
            f"{ice_g:g} g of ice at {ice_c:g} °C freezes this liquid; accepted: less or warmer ice"
        )
    melted = (spare - liquid_g * WATER_HEAT * end_c) / (FUSION + WATER_HEAT * end_c)
    share = melted / most
    # A thermometer is good to half a degree: a reading just past equilibrium is equilibrium.
    if not -0.05 <= share <= 1.05:
        raise ValueError(
            f"ends at {end_c:g} °C, which this ice cannot do; accepted: between melted and start"
        )
    return min(1.0, max(0.0, share))
