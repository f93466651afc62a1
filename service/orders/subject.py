"""The orders as the journal takes them: their kinds of records, and how older ones are lifted."""

from __future__ import annotations

from typing import Any

from service.journal.fold import Fold, Moved
from service.journal.handler import Handler
from service.journal.kinds import Kind, Subject
from service.money.totals import Totals, rule_of, totals
from service.orders import events
from service.orders.commands import Command
from service.orders.decide import decide
from service.orders.events import Event
from service.orders.evolve import evolve
from service.orders.state import EMPTY, State


def _tell_where_tax_was_rounded(body: dict[str, Any]) -> dict[str, Any]:
    """To version 2: the first records do not say whether tax was rounded by line or by order; their tax
    does."""
    told = body["totals"]
    if "tax_rounded" in told:
        return body
    by_order = Totals(**told, tax_rounded="order")
    amounts = [line["unit"] * line["quantity"] for line in body["lines"]]
    same = totals(amounts, rule_of(by_order), by_order.currency) == by_order
    return {**body, "totals": {**told, "tax_rounded": "order" if same else "line"}}


def _as_it_is(body: dict[str, Any]) -> dict[str, Any]:
    """Before what a line costs and what its steps ask of hands was kept: all of that is unknown."""
    return body


KINDS: tuple[Kind[Any], ...] = (
    Kind("book-opened", events.BookOpened),
    Kind("sold-out", events.SoldOut),
    Kind("back-on", events.BackOn),
    Kind("rung-in", events.RungIn, (_tell_where_tax_was_rounded, _as_it_is)),
    Kind("step-started", events.StepStarted),
    Kind("steps-finished", events.StepsFinished),
    Kind("steps-reopened", events.StepsReopened),
    Kind("drink-bumped", events.DrinkBumped),
    Kind("drink-recalled", events.DrinkRecalled),
    Kind("drink-voided", events.DrinkVoided),
    Kind("drink-changed", events.DrinkChanged, (_as_it_is,)),
    Kind("drink-remade", events.DrinkRemade, (_as_it_is,)),
    Kind("handed-off", events.HandedOff),
    Kind("hand-off-taken-back", events.HandOffTakenBack),
)

ORDERS: Subject[State, Event, Command] = Subject(KINDS, EMPTY, evolve, decide)

OrdersFold = Fold[State, Event]
OrdersMoved = Moved[State, Event]
OrdersHandler = Handler[State, Event, Command]
