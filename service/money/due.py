"""What an order comes to once drinks of it were voided or changed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from service.money.totals import Totals, rule_of, totals


@dataclass(frozen=True, slots=True)
class Cup:
    """One cup of an order as far as money goes.

    ``place`` is the line that it was rung in with, ``unit`` what it costs by now (minor units), ``stands``
    whether it is still to be paid for (is not void).
    """

    place: int
    unit: int
    stands: bool


def due(cups: Iterable[Cup], told: Totals) -> int:
    """What the standing cups of an order come to (minor units), by the tax rule it was rung in with.

    Where tax is rounded on lines, a cup that costs another price by now is a line of its own.
    """
    amounts: dict[tuple[int, int], int] = {}
    for cup in cups:
        line = (cup.place, cup.unit)
        amounts[line] = amounts.get(line, 0) + (cup.unit if cup.stands else 0)
    return totals(list(amounts.values()), rule_of(told), told.currency).gross
