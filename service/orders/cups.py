"""What a cashier may still do to one cup of an order that is rung in: another line, struck off, made again.

Asking again for what already is gives no events here either. But another hand may have moved the cup
between two tries of one request, so over HTTP a change and a remake carry an idempotency key.
"""

from __future__ import annotations

from dataclasses import replace

from service.books.rung import RungLine
from service.journal.refusals import Code, Refused
from service.orders import commands as ask
from service.orders.events import DrinkChanged, DrinkRemade, DrinkVoided, Event
from service.orders.find import find_drink, not_void
from service.orders.ring_in import at_hand, rung
from service.orders.state import Drink, State


def change(state: State, command: ask.ChangeDrink, at: int) -> tuple[Event, ...]:
    """Another line in the cup's place in the queue, as long as no hand has been at it."""
    drink = not_void(find_drink(state, command.drink))
    if _is(drink, rung(command.line)):
        return ()
    if drink.state != "waiting":
        how = "made" if drink.state == "made" else "being made"
        message = f"{drink.rung.title} ({drink.id}) is {how}: make it again as another, and say why."
        raise Refused(Code.DRINK_BEGUN, message, "drink", drink.id, (f"remake {drink.id}",))
    return _changed(state, drink, command.line, at)


def remake(state: State, command: ask.RemakeDrink, at: int) -> tuple[Event, ...]:
    """The cup is waste and is made again; one that no hand has been at is only changed, if that is asked."""
    reason = with_reason(command.reason)
    drink = not_void(find_drink(state, command.drink))
    line = command.line
    if drink.state == "waiting":
        return () if line is None or _is(drink, rung(line)) else _changed(state, drink, line, at)
    if line is None or _is(drink, rung(line)):
        at_hand(state, drink.rung.title, command.needs, "drink")
        return (DrinkRemade(at, drink.id, reason),)
    at_hand(state, line.title, line.needs, "line")
    return (DrinkRemade(at, drink.id, reason, rung(line)),)


def strike(drink: Drink, reason: str, at: int) -> tuple[Event, ...]:
    """The cup is struck off; ``reason`` was looked at before."""
    if drink.state == "void":
        return ()
    return (DrinkVoided(at, drink.id, reason, begun=drink.state != "waiting"),)


def with_reason(reason: str) -> str:
    """The reason itself, unless nothing was said."""
    if not reason.strip():
        message = "Say why: what is struck off or made again without a reason cannot be reviewed."
        raise Refused(Code.REASON_MISSING, message, "reason", reason, ("a few words",))
    return reason


def _changed(state: State, drink: Drink, line: ask.OrderLine, at: int) -> tuple[Event, ...]:
    at_hand(state, line.title, line.needs, "line")
    return (DrinkChanged(at, drink.id, rung(line)),)


def _is(drink: Drink, line: RungLine) -> bool:
    """Whether the cup is that already, however many were rung in with it."""
    return replace(drink.rung, quantity=1) == replace(line, quantity=1)
