"""How long things took, put into the words of the wire."""

from __future__ import annotations

from collections.abc import Sequence

from service.money.due import Cup, due
from service.times import wire
from service.times.life import Mark, Span
from service.times.record import DrinkRecord, OrderRecord
from service.times.spread import Spread


def order_row(order: OrderRecord) -> wire.OrderRow:
    """One order in a list. ``drinks`` and ``lines`` count the void ones too: they were rung in."""
    return wire.OrderRow(
        id=order.order,
        number=order.number,
        name=order.name,
        rung_at=order.rung_at,
        ready_at=order.ready_at,
        handed_off_at=order.handed_off_at,
        state=order.state,
        void_reason=order.void_reason,
        drinks=len(order.drinks),
        lines=_lines(order),
        gross=order.totals.gross,
        due=due(
            (Cup(drink.place, drink.rung.unit, drink.voided_at is None) for drink in order.drinks),
            order.totals,
        ),
    )


def _lines(order: OrderRecord) -> list[wire.OrderedDrink]:
    """The order's drinks, alike ones as one line, in the order rung in."""
    alike: dict[tuple[str, tuple[str, ...], str], list[DrinkRecord]] = {}
    for drink in order.drinks:
        key = (drink.rung.title, drink.rung.words, drink.rung.note)
        alike.setdefault(key, []).append(drink)
    return [
        wire.OrderedDrink(
            title=title,
            words=list(words),
            note=note,
            quantity=len(drinks),
            void=sum(drink.voided_at is not None for drink in drinks),
            changed=sum(drink.changed for drink in drinks),
            remade=sum(bool(drink.wasted) for drink in drinks),
        )
        for (title, words, note), drinks in alike.items()
    ]


def spread(told: Spread) -> wire.Spread:
    """How a set of times is spread."""
    return wire.Spread(count=told.count, p50=told.p50, p90=told.p90, p95=told.p95, longest=told.longest)


def spans(told: Sequence[Span]) -> list[wire.Span]:
    """A drink's stretches."""
    return [
        wire.Span(kind=each.kind, station=each.station, label=each.label, start=each.start, end=each.end)
        for each in told
    ]


def marks(told: Sequence[Mark]) -> list[wire.Mark]:
    """An order's moments."""
    return [wire.Mark(at=each.at, what=each.what) for each in told]
