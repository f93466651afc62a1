"""Seeded customers: who comes when, and how each bends a drink. Pure: a seed gives the same rush.

The shares below are invented for the demo; they only have to look like a counter at noon: most
drinks are taken nearly as the menu has them, groups are small, and arrivals swell to a peak.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeVar

from service.books.wire import LineIn, Menu, MenuDrink, ToppingIn
from service.orders.wire import DrinkIn, RingIn

NAMES = (
    "Ana", "Bento", "Clara", "Davi", "Elin", "Farid", "Greta", "Hugo", "Ines", "Jonas", "Kaya", "Lidia",
    "Mateo", "Nour", "Otto", "Paula", "Quim", "Rosa", "Sena", "Tomé",
    "Uma", "Vera", "Wim", "Xana", "Yara", "Zeno",
)  # fmt: skip
GROUP_SIZES = ((1, 55), (2, 28), (3, 12), (4, 5))
TOPPING_COUNTS = ((0, 45), (1, 40), (2, 12), (3, 3))
NOTES = ("straw apart, please", "for the child: lid on tight", "two straws", "")


T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Arrival:
    """One customer: seconds after the rush began, and what they ring in."""

    at_s: float
    order: RingIn


def rush(menu: Menu, seed: int, orders: int, length_s: float) -> list[Arrival]:
    """The customers of one rush, in order of arrival, swelling to a peak in the middle of it."""
    chance = random.Random(seed)
    moments = sorted(chance.triangular(0.0, length_s, length_s * 0.5) for _ in range(orders))
    favourites = list(menu.drinks)
    chance.shuffle(favourites)
    return [Arrival(moment, _order(menu, favourites, chance)) for moment in moments]


def _order(menu: Menu, favourites: list[MenuDrink], chance: random.Random) -> RingIn:
    drinks = [
        _drink(menu, _favourite(favourites, chance), chance) for _ in range(_weighted(GROUP_SIZES, chance))
    ]
    return RingIn(name=chance.choice(NAMES), drinks=drinks)


def _favourite(favourites: list[MenuDrink], chance: random.Random) -> MenuDrink:
    """A drink, the first ones far more often than the last (weights 1/rank)."""
    return chance.choices(favourites, weights=[1 / (rank + 1) for rank in range(len(favourites))])[0]


def _drink(menu: Menu, drink: MenuDrink, chance: random.Random) -> DrinkIn:
    ice = _mostly(drink.default.ice, drink.ices, 0.6, chance)
    milks: list[str | None] = [*drink.milks]
    line = LineIn(
        drink=drink.id,
        size=_mostly(drink.default.size, drink.sizes, 0.5, chance),
        sugar=_mostly(drink.default.sugar, drink.sugars, 0.4, chance),
        ice=ice,
        shots=chance.choice(range(1, drink.shots + 1)) if drink.shots and chance.random() < 0.12 else 0,
        toppings=_toppings(menu, drink, chance),
        milk=_mostly(drink.default.milk, milks, 0.75, chance),
        without=[chance.choice(drink.without).id] if drink.without and chance.random() < 0.06 else [],
    )
    note = chance.choice(NOTES) if chance.random() < 0.1 else ""
    return DrinkIn(line=line, quantity=2 if chance.random() < 0.05 else 1, note=note)


def _toppings(menu: Menu, drink: MenuDrink, chance: random.Random) -> list[ToppingIn]:
    most = min(_weighted(TOPPING_COUNTS, chance), menu.toppings_max, len(drink.toppings))
    halved = {each.id for each in menu.toppings if each.half_price is not None}
    return [
        ToppingIn(topping=name, half=chance.random() < 0.25 and name in halved)
        for name in chance.sample(drink.toppings, most)
    ]


def _mostly(usual: T, others: Sequence[T], share: float, chance: random.Random) -> T:
    """The usual choice with the given share, else any that the drink allows."""
    return usual if not others or chance.random() < share else chance.choice(others)


def _weighted(table: tuple[tuple[int, int], ...], chance: random.Random) -> int:
    return chance.choices([value for value, _ in table], weights=[weight for _, weight in table])[0]
