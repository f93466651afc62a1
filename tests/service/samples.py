"""Lines, orders and states for the tests of the core, written small."""

from __future__ import annotations

from decimal import Decimal

from service.books.rung import Work
from service.money.totals import TaxRule
from service.orders import commands as ask
from service.orders.commands import Command, OrderLine
from service.orders.decide import decide
from service.orders.events import Event
from service.orders.evolve import evolve_all
from service.orders.state import EMPTY, State

NOON = 1_772_452_800_000
"""2026-03-02 12:00 UTC, which is also noon in Lisbon (standard time there is UTC)."""

SECOND, MINUTE, HOUR, DAY = 1000, 60_000, 3_600_000, 86_400_000

VAT = TaxRule("VAT", Decimal(10), included=True, rounded="order")

WORK = (
    Work("scoop", "Taro", 0, 0),
    Work("scoop", "Fructose", 0, 0),
    Work("tea", "Tea", 0, 0),
    Work("shake", "Ice", 0, 0),
    Work("shake", "Shake", 30, 60),
    Work("seal", "Seal", 5, 5),
)


def a_line(
    item: str = "taro", quantity: int = 1, unit: int = 480, work: tuple[Work, ...] = WORK
) -> OrderLine:
    return OrderLine(
        item=item,
        item_name=item.title(),
        line={"drink": item, "size": "large"},
        book="b1",
        build=f"build-{item}",
        title=f"Large {item.title()}",
        words=("less ice",),
        quantity=quantity,
        unit=unit,
        note="",
        uses=(f"{item}_powder", "milk"),
        work=work,
        needs={item: item.title(), f"{item}_powder": f"{item} powder", "milk": "Milk"},
    )


def ring(*lines: OrderLine, name: str = "Ana") -> ask.RingIn:
    return ask.RingIn(name, lines or (a_line(),), "EUR", VAT)


OPEN = ask.OpenBook("b1", "Europe/Lisbon", 4 * 60)


class Bar:
    """A bar without a journal: what is told to it is decided and evolved at once."""

    def __init__(self, *commands: Command, at: int = NOON) -> None:
        self.now = at
        self.state: State = EMPTY
        self.events: list[Event] = []
        for command in (OPEN, *commands):
            self.tell(command)

    def tell(self, command: Command, later: int = 0) -> tuple[Event, ...]:
        self.now += later
        events = decide(self.state, command, self.now)
        self.state = evolve_all(self.state, events)
        self.events.extend(events)
        return events
