"""State and event to state. Never refuses: what is in the journal has happened."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace

from service.books.rung import RungLine, Work
from service.calendar.days import Calendar
from service.orders.events import (
    BackOn,
    BookOpened,
    DrinkBumped,
    DrinkChanged,
    DrinkEvent,
    DrinkRecalled,
    DrinkRemade,
    DrinkVoided,
    Event,
    HandedOff,
    HandOffTakenBack,
    RungIn,
    SoldOut,
    StepsFinished,
    StepsReopened,
    StepStarted,
    order_of,
)
from service.orders.state import DaySpan, Drink, Ending, Handed, State, Step, Ticket


def evolve(state: State, event: Event) -> State:
    """The state after one more event, which stands at the next position of the journal."""
    state = replace(state, position=state.position + 1, last_at=max(state.last_at, event.at))
    match event:
        case BookOpened():
            return replace(
                state,
                book=event.version,
                anyway=event.anyway,
                last_touch=event.last_touch,
                calendar=Calendar(event.time_zone, event.day_starts_min),
            )
        case SoldOut():
            return replace(state, sold_out=state.sold_out | {event.item})
        case BackOn():
            return replace(state, sold_out=state.sold_out - {event.item})
        case RungIn():
            return _rung_in(state, event)
        case HandedOff():
            return _handed_off(state, state.tickets[event.order], event.at)
        case HandOffTakenBack():
            return _taken_back(state, event.order)
        case _:
            return _at_drink(state, event)


def evolve_all(state: State, events: Iterable[Event]) -> State:
    """The state after several more events."""
    for event in events:
        state = evolve(state, event)
    return state


def _rung_in(state: State, event: RungIn) -> State:
    cups = [(place, line) for place, line in enumerate(event.lines) for _ in range(line.quantity)]
    drinks = tuple(
        Drink(f"{event.order}.{n}", line, "waiting", _unmade(line), place=place)
        for n, (place, line) in enumerate(cups, start=1)
    )
    ticket = Ticket(
        event.order,
        event.number,
        event.name,
        event.day,
        event.at,
        event.totals,
        state.position,
        drinks,
    )
    span = state.days.get(event.day, DaySpan(state.position, state.position, 0))
    closed, handed = state.closed, state.handed
    if event.day != state.day:
        handed = {}
        closed = {order: end for order, end in closed.items() if end[0] == state.day}
    return replace(
        state,
        tickets={**state.tickets, event.order: ticket},
        closed=closed,
        handed=handed,
        orders=state.orders + 1,
        day=event.day,
        number=event.number,
        days={**state.days, event.day: replace(span, orders=span.orders + 1)},
    )


def _handed_off(state: State, ticket: Ticket, at: int) -> State:
    state = _close(state, ticket, "handed off")
    if ticket.day != state.day:
        return state
    return replace(state, handed={**state.handed, ticket.id: Handed(ticket, at)})


def _taken_back(state: State, order: str) -> State:
    """As if it had not been handed off, in its old place."""
    tickets = sorted([*state.tickets.values(), state.handed[order].ticket], key=lambda each: each.position)
    return replace(
        state,
        tickets={each.id: each for each in tickets},
        closed={id: ending for id, ending in state.closed.items() if id != order},
        handed={id: each for id, each in state.handed.items() if id != order},
    )


def _at_drink(state: State, event: DrinkEvent) -> State:
    ticket = state.tickets[order_of(event) or ""]
    drinks = tuple(_drink(drink, event) if drink.id == event.drink else drink for drink in ticket.drinks)
    ticket = replace(ticket, drinks=drinks)
    if all(drink.state == "void" for drink in drinks):
        return _close(state, ticket, "void")
    return replace(state, tickets={**state.tickets, ticket.id: ticket})


def _drink(drink: Drink, event: DrinkEvent) -> Drink:
    match event:
        case StepStarted():
            steps = _with(drink.steps, (event.step,), lambda _: Step("running", event.at))
            return replace(drink, state="making", steps=steps)
        case StepsFinished():
            steps = _with(drink.steps, event.steps, lambda step: _done(step, event.at))
            return replace(drink, state="making", steps=steps)
        case StepsReopened():
            return _unbegun(drink, _with(drink.steps, event.steps, lambda _: Step()))
        case DrinkBumped():
            steps = tuple(_done(step, event.at) for step in drink.steps)
            return replace(drink, state="made", steps=steps, bumped_at=event.at, unbumped=drink.steps)
        case DrinkRecalled():
            return _recalled(drink)
        case DrinkVoided():
            return replace(drink, state="void", bumped_at=None)
        case DrinkChanged():
            return _anew(replace(drink, rung=event.line, changed_at=event.at))
        case DrinkRemade():
            drink = replace(drink, remade_at=event.at, remade_why=event.reason)
            return _anew(
                drink if event.line is None else replace(drink, rung=event.line, changed_at=event.at)
            )


def _anew(drink: Drink) -> Drink:
    """With everything still to do, by the line that it has by now."""
    return replace(drink, state="waiting", steps=_unmade(drink.rung), bumped_at=None, unbumped=())


def _unmade(line: RungLine) -> tuple[Step, ...]:
    return (Step(),) * len(line.work)


def _recalled(drink: Drink) -> Drink:
    """As it stood before the bump: a bump by mistake must not pass for work done.

    A drink whose steps were all done comes back with those of its last station to do again.
    """
    steps = drink.unbumped
    if all(step.state == "done" for step in steps):
        steps = _with(steps, last_station(drink.rung.work), lambda _: Step())
    return replace(_unbegun(drink, steps), bumped_at=None, unbumped=())


def _unbegun(drink: Drink, steps: tuple[Step, ...]) -> Drink:
    """The drink with these steps: waiting again if no hand has been at any."""
    begun = any(step.state != "todo" for step in steps)
    return replace(drink, state="making" if begun else "waiting", steps=steps)


def last_station(work: Sequence[Work]) -> tuple[int, ...]:
    """The numbers of the steps that end a drink, all at its last station: what a recall does over."""
    first = len(work)
    while first > 0 and work[first - 1].station == work[-1].station:
        first -= 1
    return tuple(range(first + 1, len(work) + 1))


def _done(step: Step, at: int) -> Step:
    return step if step.state == "done" else Step("done", step.started_at, at)


def _with(
    steps: tuple[Step, ...], numbers: tuple[int, ...], change: Callable[[Step], Step]
) -> tuple[Step, ...]:
    return tuple(change(step) if n in numbers else step for n, step in enumerate(steps, start=1))


def _close(state: State, ticket: Ticket, ending: Ending) -> State:
    span = state.days[ticket.day]
    return replace(
        state,
        tickets={order: each for order, each in state.tickets.items() if order != ticket.id},
        closed={**state.closed, ticket.id: (ticket.day, ending)},
        days={**state.days, ticket.day: replace(span, last=state.position)},
    )
