"""A business day in review: how long orders, drinks and stations took."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from service.calendar.days import Calendar, local_time
from service.times.record import DrinkRecord, OrderRecord
from service.times.spread import Spread, spread


@dataclass(frozen=True, slots=True)
class Group:
    """The spread of one group: an hour, a drink on the menu, or a station."""

    id: str
    name: str
    spread: Spread


@dataclass(frozen=True, slots=True)
class Review:
    """A day's figures. Void orders and void drinks are left out of all times; ``void`` counts the orders.

    A cup that was changed or made again counts once, as what went out: from ring-in to its last bump, and at
    the stations with the work that was kept. ``remade`` counts the cups that were thrown away.

    ``to_ready`` runs from ring-in to the last bump, ``to_hand_off`` from ring-in to hand-off.
    """

    open: int
    void: int
    remade: int
    to_ready: Spread
    to_hand_off: Spread
    by_hour: tuple[Group, ...]
    by_drink: tuple[Group, ...]
    by_station: tuple[Group, ...]


def review(orders: Sequence[OrderRecord], calendar: Calendar, stations: Mapping[str, str]) -> Review:
    """The figures of the orders of one day. ``stations`` gives ids and names in counter order."""
    standing = [order for order in orders if order.state != "void"]
    drinks = [(order, drink) for order in standing for drink in order.standing]
    return Review(
        open=sum(order.handed_off_at is None for order in standing),
        void=len(orders) - len(standing),
        remade=sum(len(drink.wasted) for order in orders for drink in order.drinks),
        to_ready=spread(_to_ready(standing)),
        to_hand_off=spread(
            order.handed_off_at - order.rung_at for order in standing if order.handed_off_at is not None
        ),
        by_hour=_by_hour(standing, calendar),
        by_drink=_by_drink(drinks),
        by_station=_by_station([drink for _, drink in drinks], stations),
    )


def _to_ready(orders: Sequence[OrderRecord]) -> list[int]:
    return [order.ready_at - order.rung_at for order in orders if order.ready_at is not None]


def _by_hour(orders: Sequence[OrderRecord], calendar: Calendar) -> tuple[Group, ...]:
    """By the hour rung in, in the order of the day, which need not start at midnight."""
    hours: dict[int, list[OrderRecord]] = {}
    for order in sorted(orders, key=lambda each: each.rung_at):
        hours.setdefault(local_time(order.rung_at, calendar).hour, []).append(order)
    return tuple(
        Group(str(hour), f"{hour:02d}:00", spread(_to_ready(group))) for hour, group in hours.items()
    )


def _by_drink(drinks: Sequence[tuple[OrderRecord, DrinkRecord]]) -> tuple[Group, ...]:
    """By drink on the menu, the most made first."""
    times: dict[str, list[int]] = {}
    names: dict[str, str] = {}
    for order, drink in drinks:
        if drink.made_at is not None:
            times.setdefault(drink.rung.item, []).append(drink.made_at - order.rung_at)
            names[drink.rung.item] = drink.rung.item_name
    found = [Group(item, names[item], spread(each)) for item, each in times.items()]
    return tuple(sorted(found, key=lambda group: (-group.spread.count, group.name)))


def _by_station(drinks: Sequence[DrinkRecord], stations: Mapping[str, str]) -> tuple[Group, ...]:
    """By station: from the start to the finish of every step that was timed."""
    times: dict[str, list[int]] = {station: [] for station in stations}
    for drink in drinks:
        for run in drink.runs:
            if run.start is not None and run.end is not None:
                station = drink.rung.work[run.step - 1].station
                times.setdefault(station, []).append(run.end - run.start)
    return tuple(Group(id, stations.get(id, id), spread(each)) for id, each in times.items() if each)
