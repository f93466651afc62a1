"""The target of a line: how much of everything would be the recipe exactly, if tools measured anything.

Everything that scales shares one factor, so the drink keeps the composition of the reference drink. The
share of its size is the largest up to 1 that stays under the room the toppings leave and in the vessel.
Where ice is left out, the top-up stands in for the melt and the whole drink grows until strength and fill
are both those of the regular drink (``to = "fill"``), or stays as it is at equal strength
(``to = "strength"``).

Where that comes to less of the recipe than its least share, the ice that would only float gives way: a drink
with a cube or two less, as strong and as cold when it is poured, can be sold; "no room" cannot. What melts
never gives way, since the strength depends on it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from recipes.balance.load import Load, Settled, settle
from recipes.building.plan import Part, Plan

CLOSE_ML = 1e-4
"""How near the room, or equal strength, is near enough, ml."""

MELT_KEPT_G = 0.5
"""Ice gives way only while it melts as before, to this: half a gram is no taste."""

ROUNDS = 60
"""More rounds than any search here needs; a bound, so that a strange book cannot hang."""


@dataclass(frozen=True, slots=True)
class Target:
    """``wanted_ml`` of each of the plan's parts and of the top-up, and where that drink would settle.

    ``share`` of its regular size; ``made`` is the share of the recipe that goes in, more than ``share`` where
    a drink without ice grows into its room; ``short_ml`` is how much lower than the regular drink it would
    stand; ``less_ice_ml`` of the ice have given way.
    """

    share: float
    made: float
    wanted_ml: tuple[float, ...]
    top_up_ml: float
    settled: Settled
    short_ml: float
    less_ice_ml: float = 0.0

    @property
    def of_recipe(self) -> float:
        """What the drink's least share is held against: how much of the recipe the customer gets."""
        return max(self.share, self.made)


class Group:
    """Some parts that are made together, at any share."""

    def __init__(self, parts: Sequence[Part], melt_share: float) -> None:
        self.parts, self._melt_share = parts, melt_share
        # Tea that makes way for a shot may come to nothing; only then the load bends with the share.
        self._bending = [part for part in parts if part.fixed_ml < 0]
        self._scaling = self._fixed = Load()
        for part in parts:
            if part.fixed_ml >= 0:
                self._scaling = self._scaling.plus(part.unit, part.scaling_ml)
                self._fixed = self._fixed.plus(part.unit, part.fixed_ml)

    def load(self, share: float) -> Load:
        """What lies together at ``share``."""
        whole = self._fixed.plus(self._scaling, share)
        for part in self._bending:
            whole = whole.plus(part.unit, part.wanted_ml(share))
        return whole

    def settle(self, load: Load) -> Settled:
        """Where it settles."""
        return settle(load, self._melt_share)

    def largest_share(self, room_ml: float, vessel_ml: float) -> float:
        """The largest share up to 1 under both limits; 0 when there is none."""

        def over(share: float) -> float:
            load = self.load(share)
            return max(self.settle(load).filled_ml - room_ml, load.unmelted_ml - vessel_ml)

        return 1.0 if over(1.0) <= 0 else _last_below(over)


def target_of(plan: Plan, group: Group, usual: Group | None, room_ml: float, vessel_ml: float) -> Target:
    """The target of a plan in ``room_ml`` of cup and ``vessel_ml`` of vessel."""
    target = _with_all_ice(plan, group, usual, room_ml, vessel_ml)
    if target.of_recipe >= plan.drink.least_share:
        return target
    return _with_less_ice(plan, group, usual, room_ml, vessel_ml) or target


def _with_all_ice(plan: Plan, group: Group, usual: Group | None, room_ml: float, vessel_ml: float) -> Target:
    if usual is None:
        share = group.largest_share(room_ml, vessel_ml)
        return _target_at(group, share, 0.0, group.settle(group.load(share)), 0.0)
    share = usual.largest_share(room_ml, vessel_ml)
    load = usual.load(share)
    regular = usual.settle(load)
    if plan.top_up is None:
        settled = group.settle(group.load(share))
        return _target_at(group, share, 0.0, settled, regular.filled_ml - settled.filled_ml)
    rule = plan.drink.top_up
    # A hot drink takes the scoops and strokes of the iced one, with the water that makes it right.
    to_fill = rule is not None and rule.to == "fill" and not plan.hot
    # By mass: a hot drink takes more room than a cold one of the same strength.
    per_share = (load.mass_g + regular.melted_g) / share if share > 0 else 0.0
    grown, poured, settled = _topped_up(
        group, plan.top_up, share, per_share, regular.filled_ml, to_fill, vessel_ml
    )
    wanted = tuple(part.wanted_ml(grown) for part in group.parts)
    return Target(share, grown, wanted, poured, settled, max(0.0, regular.filled_ml - settled.filled_ml))


def _with_less_ice(
    plan: Plan, group: Group, usual: Group | None, room_ml: float, vessel_ml: float
) -> Target | None:
    """The least share of the recipe under as much of its ice as there is room for; None when that is so
    little that less would melt than with the recipe's own ice, or with all that is asked for: warming more
    cold ice leaves less heat to melt it."""
    least = plan.drink.least_share
    ice = Load()
    for part in group.parts:
        if part.role == "ice":
            ice = ice.plus(part.unit, part.wanted_ml(least))
    if ice.ice_g <= 0:
        return None
    whole, poured = group.load(least), 0.0
    if usual is not None and plan.top_up is not None:
        load = usual.load(least)
        poured, _ = _poured(group, whole, plan.top_up, load.mass_g + usual.settle(load).melted_g, 0.0)
        whole = whole.plus(plan.top_up.unit, poured)

    def over(kept: float) -> float:
        load = whole.plus(ice, kept - 1)
        return max(group.settle(load).filled_ml - room_ml, load.unmelted_ml - vessel_ml)

    if over(0.0) > 0:
        return None
    kept = 1.0 if over(1.0) <= 0 else _last_below(over)
    settled = group.settle(whole.plus(ice, kept - 1))
    recipes_own = whole.plus(ice, 1 / max(1.0, plan.ice_factor) - 1)
    melts_g = min(group.settle(recipes_own).melted_g, group.settle(whole).melted_g)
    if settled.melted_g < melts_g - MELT_KEPT_G:
        return None
    less_ml, wanted = 0.0, []
    for part in group.parts:
        ml = part.wanted_ml(least)
        wanted.append(ml * kept if part.role == "ice" else ml)
        less_ml += ml - wanted[-1]
    return Target(least, least, tuple(wanted), poured, settled, 0.0, less_ml)


def _target_at(group: Group, share: float, top_up_ml: float, settled: Settled, short_ml: float) -> Target:
    wanted = tuple(part.wanted_ml(share) for part in group.parts)
    return Target(share, share, wanted, top_up_ml, settled, max(0.0, short_ml))


def _topped_up(
    group: Group,
    top_up: Part,
    share: float,
    per_share_g: float,
    filled_ml: float,
    to_fill: bool,
    vessel_ml: float,
) -> tuple[float, float, Settled]:
    """How far the drink grows, the top-up in ml, and where it settles.

    Equal strength: for each share of the ingredients as many grams of liquid (``per_share_g``) as in the
    regular drink, which stands at ``filled_ml``.
    """
    grown, poured = share, 0.0
    for _ in range(ROUNDS):
        load = group.load(grown)
        poured, settled = _poured(group, load, top_up, per_share_g * grown, poured)
        full = load.plus(top_up.unit, poured).unmelted_ml
        room = filled_ml / settled.filled_ml if settled.filled_ml > 0 else 1.0
        factor = min(room if to_fill else min(1.0, room), vessel_ml / full if full > 0 else 1.0)
        if abs(factor - 1) * settled.filled_ml < CLOSE_ML:
            break
        grown *= factor
    return grown, poured, settled


def _poured(
    group: Group, load: Load, top_up: Part, liquid_g: float, first_ml: float
) -> tuple[float, Settled]:
    """The top-up that brings a load to ``liquid_g``, sought from ``first_ml``; none when it is there."""
    poured = first_ml
    for _ in range(ROUNDS):
        whole = load.plus(top_up.unit, poured)
        settled = group.settle(whole)
        gap = liquid_g - whole.mass_g - settled.melted_g
        if abs(gap) < CLOSE_ML or (poured == 0 and gap < 0):
            break
        # A millilitre poured in is about a gram more.
        poured = max(0.0, poured + gap)
    return poured, settled


def _last_below(over: Callable[[float], float]) -> float:
    """The share from 0 to 1 where ``over`` (growing, above 0 at 1) reaches 0 from below: false position."""
    low, high = 0.0, 1.0
    at_low, at_high = over(low), over(high)
    if at_low > 0:
        return 0.0
    for _ in range(ROUNDS):
        if at_low > -CLOSE_ML or high - low < 1e-9:
            break
        middle = low + (high - low) * at_low / (at_low - at_high)
        # Aimed a hair below, so that the lower end moves at each round.
        middle = max(low, middle - CLOSE_ML * (high - low) / (2 * (at_high - at_low)))
        at_middle = over(middle)
        if at_middle <= 0:
            low, at_low = middle, at_middle
        else:
            high, at_high = middle, at_middle
    return low
