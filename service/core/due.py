"""What an order comes to once drinks of it were voided."""

from __future__ import annotations

from collections.abc import Sequence

from service.core.bar.events import RungLine
from service.core.money import Totals, rule_of, totals


def due(cups: Sequence[tuple[RungLine, bool]], told: Totals) -> int:
    """What the standing cups of an order come to (minor units), by the tax rule it was rung in with.

    ``cups`` are all of its cups, line by line as rung in, each with whether it stands (is not void).
    """
    amounts: list[int] = []
    first = 0
    while first < len(cups):
        line = cups[first][0]
        standing = sum(stands for _, stands in cups[first : first + line.quantity])
        amounts.append(line.unit * standing)
        first += line.quantity
    return totals(amounts, rule_of(told), told.currency).gross
