"""Making a target fit its cup: how far the drink shrinks, and what is rounded to.

A drink keeps its strength: when toppings or shots need room beyond the head room, everything that scales
shrinks by one share, found here, before amounts are rounded to what the tools can measure.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from recipes import measures
from recipes.balance import Load, Settled, load, settle
from recipes.book import Book, Ingredient, TopUp
from recipes.model import Amount
from recipes.modifiers import Part, Target, regular, temperature

SHRINK = 0.98
"""Each further try, when rounding made the drink too full, is made at this share of the last."""

MOST_CUBES_LESS = 2
"""How many cubes rounding may cost before the whole drink shrinks instead."""


@dataclass(frozen=True, slots=True)
class Made:
    """A target rounded to what can be measured: an amount for each of ``target.parts`` in order.

    ``short_ml`` is how much lower than the regular drink it stands, ``cubes_less`` the ice rounding cost.
    """

    share: float
    amounts: tuple[Amount, ...]
    top_up: tuple[Part, Amount] | None
    load: Load
    settled: Settled
    cubes_less: int
    short_ml: float


class Kitchen:
    """The rules of one book and line that every try shares: melting, lines and limits."""

    def __init__(self, book: Book, target: Target) -> None:
        self.book, self.target = book, target
        self.parts = target.parts
        self.regular = regular(book, target)
        self._whole = _Wanted(self, self.parts)
        self._usual = None if self.regular is None else _Wanted(self, self.regular.parts)
        stations = [book.stations[step.station] for step, _ in target.plan]
        self.melt_share = min((station.melt_share for station in stations), default=1.0)
        self.line_ml = book.sizes[target.line.size].line_ml
        self.vessel_ml = book.vessels[target.drink.vessel].limit_ml if target.drink.vessel else float("inf")

    def settle(self, load: Load) -> Settled:
        """Where a load comes to rest at this drink's stations."""
        return settle(load, self.melt_share)

    def loads(self, parts: list[Part], volumes: list[float]) -> Load:
        """The load of these parts at these volumes."""
        total = Load()
        for part, volume in zip(parts, volumes, strict=True):
            total += self.load(part, volume)
        return total

    def load(self, part: Part, volume: float) -> Load:
        """The load of one part; a shot carries its foam."""
        foam = 0.0
        if part.ingredient.kind == "espresso" and part.tool.kind == "shot":
            foam = volume / part.tool.unit_ml * self.book.shot.crema_ml
        return load(part.ingredient, volume, part.temperature_c, foam)

    def fits(self, share: float) -> bool:
        """Whether the drink at ``share``, before rounding, stays under the line and inside the vessel."""
        whole = self.wanted(share)
        filled = self.settle(whole).filled_ml
        if self._usual is not None and self._top_up() is not None:
            filled = max(filled, self.settle(self._usual.at(share)).filled_ml)
        return filled <= self.line_ml and whole.unmelted_ml <= self.vessel_ml

    def wanted(self, share: float) -> Load:
        """The load of the drink at ``share``, before rounding."""
        return self._whole.at(share)

    def _top_up(self) -> TopUp | None:
        rule = self.target.drink.top_up
        return None if rule is None or (self.target.hot and rule.hot is None) else rule

    def make(self, share: float) -> Made | None:
        """The drink at ``share`` with every amount rounded, or None when it does not fit for rounding."""
        wanted = [part.wanted_ml(share) for part in self.parts]
        amounts = [
            measures.amount(part.tool, part.ingredient, ml)
            for part, ml in zip(self.parts, wanted, strict=True)
        ]
        for cubes_less in range(MOST_CUBES_LESS + 1):
            if cubes_less and not _take_a_cube(self.parts, amounts):
                return None
            made = self._complete(share, amounts, cubes_less)
            if made.settled.filled_ml <= self.line_ml and made.load.unmelted_ml <= self.vessel_ml:
                return made
        return None

    def _complete(self, share: float, amounts: list[Amount], cubes_less: int) -> Made:
        """These amounts with their top-up, settled."""
        whole = self.loads(self.parts, [amount.volume_ml for amount in amounts])
        settled = self.settle(whole)
        top_up, short = self._topped_up(share, settled)
        if top_up is not None:
            whole += self.load(top_up[0], top_up[1].volume_ml)
            settled = self.settle(whole)
        return Made(share, tuple(amounts), top_up, whole, settled, cubes_less, short)

    def _topped_up(self, share: float, settled: Settled) -> tuple[tuple[Part, Amount] | None, float]:
        """The top-up for missing ice by the recipe's rule, and how much lower the drink still stands."""
        if self.regular is None:
            return None, 0.0
        parts = self.regular.parts
        volumes = [
            measures.amount(part.tool, part.ingredient, part.wanted_ml(share)).volume_ml for part in parts
        ]
        usual = self.settle(self.loads(parts, volumes))
        room = min(usual.filled_ml, self.line_ml) - settled.filled_ml
        rule = self._top_up()
        wanted = usual.melted_g - settled.melted_g if rule is not None and rule.to == "strength" else room
        wanted = min(wanted, room)
        if rule is None or wanted <= 0:
            return None, max(0.0, room)
        ingredient = self._top_up_ingredient(rule)
        tool = self.book.tools[rule.tool]
        part = Part(ingredient, tool, temperature(ingredient, self.target.hot), "top_up", wanted)
        amount = measures.amount(tool, ingredient, wanted)
        if settled.filled_ml + amount.volume_ml > self.line_ml:
            amount = measures.counted(tool, ingredient, amount.count - float(tool.smallest), wanted)
        if amount.count <= 0:
            return None, max(0.0, room)
        return (part, amount), max(0.0, room - amount.volume_ml)

    def _top_up_ingredient(self, rule: TopUp) -> Ingredient:
        """What tops the drink up. A milk is always the milk chosen: another could harm who chose it."""
        chosen = rule.hot if self.target.hot and rule.hot else rule.cold
        milks = {milk.ingredient for milk in self.book.milks.values()}
        if chosen in milks and self.target.line.milk is not None:
            chosen = self.book.milks[self.target.line.milk].ingredient
        return self.book.pantry[chosen]


class _Wanted:
    """The load of some parts at any share: what scales times the share, and what does not."""

    def __init__(self, kitchen: Kitchen, parts: list[Part]) -> None:
        # Tea that makes way for a shot may come to nothing; only then the load bends with the share.
        straight = [part for part in parts if part.fixed_ml >= 0]
        self._kitchen = kitchen
        self._bending = [part for part in parts if part.fixed_ml < 0]
        self._scaling = kitchen.loads(straight, [part.scaling_ml for part in straight])
        self._fixed = kitchen.loads(straight, [part.fixed_ml for part in straight])

    def at(self, share: float) -> Load:
        """The load at ``share``."""
        whole = self._scaling * share + self._fixed
        for part in self._bending:
            whole += self._kitchen.load(part, part.wanted_ml(share))
        return whole


def _take_a_cube(parts: list[Part], amounts: list[Amount]) -> bool:
    """Take the smallest step of ice out of ``amounts``; False when there is none to take."""
    for place, (part, amount) in enumerate(zip(parts, amounts, strict=True)):
        count = amount.count - float(part.tool.smallest)
        if part.ingredient.kind == "ice" and count > 0:
            amounts[place] = measures.counted(part.tool, part.ingredient, count, amount.wanted_ml)
            return True
    return False


def fit(book: Book, target: Target) -> Made | None:
    """The target at the largest share that fits, rounded; None below the recipe's least share."""
    kitchen = Kitchen(book, target)
    least = target.drink.least_share
    share = _largest(kitchen.fits, least)
    while share is not None and share >= least:
        made = kitchen.make(share)
        if made is not None:
            return made
        share *= SHRINK
    return None


def _largest(fits: Callable[[float], bool], least: float) -> float | None:
    """The largest share up to 1 that fits, to a hundred-thousandth; None when even the least does not."""
    if fits(1.0):
        return 1.0
    if not fits(least):
        return None
    low, high = least, 1.0
    while high - low > 1e-5:
        middle = (low + high) / 2
        low, high = (middle, high) if fits(middle) else (low, middle)
    return low
