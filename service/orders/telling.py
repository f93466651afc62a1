"""What the core knows, put into the words of the wire."""

from __future__ import annotations

from collections.abc import Iterable

from service.books import wire as books_wire
from service.books.builds import Builds
from service.books.telling import build as told_build
from service.money import wire as money_wire
from service.money.due import Cup, due
from service.money.totals import Totals
from service.orders import wire
from service.orders.events import RungIn
from service.orders.state import Drink, State, Ticket
from service.orders.views import Touched, gone_of, open_of, ready_at, ticket_state

HANDED_TOLD = 20
"""How many of the tickets handed off last a display is told: a few minutes of a rush."""


def totals(told: Totals) -> money_wire.Totals:
    """What an order comes to."""
    return money_wire.Totals(
        currency=told.currency,
        net=told.net,
        tax=told.tax,
        gross=told.gross,
        tax_name=told.tax_name,
        tax_percent=told.tax_percent,
        tax_included=told.tax_included,
    )


def receipt(rung: RungIn) -> wire.Receipt:
    """The answer to a ring-in."""
    return wire.Receipt(
        id=rung.order,
        number=rung.number,
        name=rung.name,
        day=rung.day,
        rung_at=rung.at,
        lines=[
            wire.ReceiptLine(
                title=line.title,
                words=list(line.words),
                note=line.note,
                quantity=line.quantity,
                unit=line.unit,
                amount=line.unit * line.quantity,
            )
            for line in rung.lines
        ],
        totals=totals(rung.totals),
    )


def ticket(told: Ticket) -> wire.Ticket:
    """A ticket as the displays see it."""
    return wire.Ticket(
        id=told.id,
        number=told.number,
        name=told.name,
        day=told.day,
        rung_at=told.rung_at,
        state=ticket_state(told),
        ready_at=ready_at(told),
        drinks=[_drink(drink) for drink in told.drinks],
        gross=told.totals.gross,
        due=due(cups(told), told.totals),
    )


def cups(told: Ticket) -> list[Cup]:
    """The cups of a ticket as far as money goes."""
    return [Cup(drink.place, drink.rung.unit, drink.state != "void") for drink in told.drinks]


def _drink(drink: Drink) -> wire.QueueDrink:
    return wire.QueueDrink(
        id=drink.id,
        build=drink.rung.build,
        note=drink.rung.note,
        state=drink.state,
        steps=[
            wire.StepState(state=step.state, started_at=step.started_at, finished_at=step.finished_at)
            for step in drink.steps
        ],
        bumped_at=drink.bumped_at,
        changed_at=drink.changed_at,
        remade_at=drink.remade_at,
        remade_why=drink.remade_why,
    )


def snapshot(store: str, state: State, builds: Builds, now: int) -> wire.Snapshot:
    """The whole queue of a store."""
    tickets = list(state.tickets.values())
    return wire.Snapshot(
        store=store,
        position=state.position,
        now=now,
        book=state.book or "",
        tickets=[ticket(each) for each in tickets],
        builds=_builds(tickets, builds),
        handed=_handed(state),
        sold_out=sorted(state.sold_out),
    )


def change(store: str, after: int, state: State, what: Touched, builds: Builds, now: int) -> wire.Change:
    """What became of the queue between ``after`` and the state's position."""
    tickets = open_of(state, what)
    gone = list(gone_of(state, what))
    return wire.Change(
        store=store,
        after=after,
        position=state.position,
        now=now,
        tickets=[ticket(each) for each in tickets],
        gone=gone,
        struck=[order for order in gone if order in state.closed and state.closed[order][1] == "void"],
        builds=_builds([each for each in tickets if each.id in what.entered], builds),
        handed=_handed(state) if what.handed else None,
        sold_out=sorted(state.sold_out) if what.sold_out else None,
        book=state.book if what.book else None,
    )


def _handed(state: State) -> list[wire.HandedOff]:
    return [
        wire.HandedOff(
            id=each.ticket.id,
            number=each.ticket.number,
            name=each.ticket.name,
            drinks=sum(drink.state != "void" for drink in each.ticket.drinks),
            handed_off_at=each.at,
        )
        for each in list(state.handed.values())[: -HANDED_TOLD - 1 : -1]
    ]


def _builds(tickets: Iterable[Ticket], builds: Builds) -> dict[str, books_wire.Build]:
    rung = {drink.rung.build: drink.rung for each in tickets for drink in each.drinks}
    return {id: told_build(builds.of(line)) for id, line in rung.items()}
