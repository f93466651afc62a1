"""What follows from the bar's state: what a ticket is at, when it was ready, what changed between two."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from service.orders.events import (
    BackOn,
    BookOpened,
    DrinkChanged,
    DrinkRemade,
    Event,
    HandedOff,
    HandOffTakenBack,
    RungIn,
    SoldOut,
    order_of,
)
from service.orders.state import State, Ticket

TicketWord = Literal["waiting", "making", "ready"]


def ticket_state(ticket: Ticket) -> TicketWord:
    """Ready when every drink that is not void is made; waiting while no hand has been at any."""
    left = {drink.state for drink in ticket.drinks} - {"void"}
    if left <= {"made"}:
        return "ready"
    return "waiting" if left == {"waiting"} else "making"


def ready_at(ticket: Ticket) -> int | None:
    """When the last drink was bumped (ms), if the ticket is ready."""
    bumps = [drink.bumped_at for drink in ticket.drinks if drink.bumped_at is not None]
    return max(bumps, default=None) if ticket_state(ticket) == "ready" else None


@dataclass(frozen=True, slots=True)
class Touched:
    """What a stretch of events touched: orders (in the order first touched), and what else changed.

    ``entered`` are those with something on them that was not on the bar before: rung in, their hand-off
    taken back, or a cup of theirs another. Only their builds can be new to a display. ``handed`` tells that
    the list of those handed off today is another now.
    """

    orders: tuple[str, ...]
    entered: frozenset[str]
    handed: bool
    sold_out: bool
    book: bool


def touched(events: Iterable[Event]) -> Touched:
    """What a display that knows the state before these events must be told of."""
    orders: dict[str, None] = {}
    entered: set[str] = set()
    handed = sold_out = book = False
    for event in events:
        order = order_of(event)
        if order is not None:
            orders[order] = None
        match event:
            case RungIn():
                entered.add(event.order)
                # With the first order of a day those handed off the day before are let go.
                handed = handed or event.number == 1
            case HandOffTakenBack():
                entered.add(event.order)
                handed = True
            case HandedOff():
                handed = True
            case DrinkChanged() | DrinkRemade():
                entered.add(order_of(event) or "")
            case SoldOut() | BackOn():
                sold_out = True
            case BookOpened():
                book = True
            case _:
                pass
    return Touched(tuple(orders), frozenset(entered), handed, sold_out, book)


def open_of(state: State, what: Touched) -> tuple[Ticket, ...]:
    """The touched tickets that are still on the bar."""
    return tuple(state.tickets[order] for order in what.orders if order in state.tickets)


def gone_of(state: State, what: Touched) -> tuple[str, ...]:
    """The touched tickets that have left it."""
    return tuple(order for order in what.orders if order not in state.tickets)
