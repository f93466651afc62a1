"""State and command to events, or a refusal. Nothing but its arguments goes in: no clock, no chance.

A command that asks for what already is gives no events and is no error, so every command but a ring-in
may safely be sent again.
"""

from __future__ import annotations

from collections.abc import Callable

from service.journal.refusals import Code, Refused
from service.orders import commands as ask
from service.orders.commands import Command
from service.orders.cups import change, remake, strike, with_reason
from service.orders.events import (
    BackOn,
    BookOpened,
    DrinkBumped,
    DrinkRecalled,
    Event,
    HandedOff,
    HandOffTakenBack,
    SoldOut,
    StepsFinished,
    StepsReopened,
    StepStarted,
)
from service.orders.evolve import evolve_all
from service.orders.find import find_drink, find_steps, find_ticket, not_void
from service.orders.ring_in import ring_in
from service.orders.state import Drink, State


def decide(state: State, command: Command, now: int) -> tuple[Event, ...]:
    """What happens when ``command`` meets ``state`` at ``now`` (ms since 1970 UTC).

    Raises ``Refused``. No event is ever dated before the last one, even if ``now`` is.
    """
    at = max(now, state.last_at)
    match command:
        case ask.RingIn():
            return ring_in(state, command, at)
        case (
            ask.StartStep()
            | ask.FinishSteps()
            | ask.ReopenSteps()
            | ask.BumpDrink()
            | ask.RecallDrink()
            | ask.VoidDrink()
            | ask.ChangeDrink()
            | ask.RemakeDrink()
        ):
            return _at_drink(state, command, at)
        case ask.Together():
            return _together(state, command, at)
        case ask.BumpTicket() | ask.RecallTicket() | ask.VoidTicket() | ask.HandOff() | ask.TakeBack():
            return _at_ticket(state, command, at)
        case ask.SellOut():
            return _sell_out(state, command, at)
        case ask.OpenBook():
            return _open_book(state, command, at)


def _together(state: State, command: ask.Together, at: int) -> tuple[Event, ...]:
    """Each part meets the state that those before it led to; one that is refused refuses them all."""
    events: tuple[Event, ...] = ()
    for part in command.parts:
        more = _at_drink(state, part, at)
        state = evolve_all(state, more)
        events += more
    return events


def _at_drink(state: State, command: ask.DrinkCommand, at: int) -> tuple[Event, ...]:
    if isinstance(command, ask.CupCommand):
        return _at_cup(state, command, at)
    if isinstance(command, ask.RecallDrink):
        return _recall(not_void(find_drink(state, command.drink)), at)
    if isinstance(command, ask.ReopenSteps):
        return _reopen(not_void(find_drink(state, command.drink)), command.steps, at)
    drink = _still_there(state, command.drink)
    if drink is None:
        return ()
    match command:
        case ask.StartStep():
            return _start(drink, command.step, at)
        case ask.FinishSteps():
            return _finish(drink, command.steps, state.last_touch, at)
        case ask.BumpDrink():
            return _bump(drink, at)


def _at_cup(state: State, command: ask.CupCommand, at: int) -> tuple[Event, ...]:
    match command:
        case ask.VoidDrink():
            reason = with_reason(command.reason)
            if _ended(state, command.drink.rpartition(".")[0]) == "void":
                return ()
            return strike(find_drink(state, command.drink), reason, at)
        case ask.ChangeDrink():
            return change(state, command, at)
        case ask.RemakeDrink():
            return remake(state, command, at)


def _at_ticket(state: State, command: ask.TicketCommand, at: int) -> tuple[Event, ...]:
    ended = _ended(state, command.order)
    match command:
        case ask.BumpTicket():
            return () if ended == "handed off" else _each(state, command.order, _bump, at)
        case ask.RecallTicket():
            return _each(state, command.order, _recall, at)
        case ask.VoidTicket():
            reason = with_reason(command.reason)
            drinks = () if ended == "void" else find_ticket(state, command.order).drinks
            return tuple(event for drink in drinks for event in strike(drink, reason, at))
        case ask.HandOff():
            return () if ended == "handed off" else _hand_off(state, command.order, at)
        case ask.TakeBack():
            return _take_back(state, command.order, at)


def _ended(state: State, order: str) -> str | None:
    """How a ticket lately ended, if it did: asking for that same end again is no error."""
    ending = state.closed.get(order)
    return ending[1] if ending else None


def _still_there(state: State, drink: str) -> Drink | None:
    """The drink to work on; None when its ticket was handed off, since then all its work is done."""
    if _ended(state, drink.rpartition(".")[0]) == "handed off":
        return None
    return not_void(find_drink(state, drink))


_Act = Callable[[Drink, int], tuple[Event, ...]]


def _each(state: State, order: str, act: _Act, at: int) -> tuple[Event, ...]:
    drinks = find_ticket(state, order).drinks
    return tuple(event for drink in drinks if drink.state != "void" for event in act(drink, at))


def _start(drink: Drink, step: int, at: int) -> tuple[Event, ...]:
    find_steps(drink, (step,), "step")
    return (StepStarted(at, drink.id, step),) if drink.steps[step - 1].state == "todo" else ()


def _finish(drink: Drink, steps: tuple[int, ...], last_touch: bool, at: int) -> tuple[Event, ...]:
    """The steps that are still open; with the last of them, where the book says so, the bump.

    Decided here and not at a screen, so that a bar without a bar sheet gets its numbers ready, and two
    screens that touch at once bump once.
    """
    wanted = find_steps(drink, steps, "steps")
    still_open = tuple(n for n in wanted if drink.steps[n - 1].state != "done")
    if not still_open:
        return ()
    finished = StepsFinished(at, drink.id, still_open)
    left = sum(step.state != "done" for step in drink.steps) - len(still_open)
    return (finished, DrinkBumped(at, drink.id)) if last_touch and left == 0 else (finished,)


def _reopen(drink: Drink, steps: tuple[int, ...], at: int) -> tuple[Event, ...]:
    wanted = find_steps(drink, steps, "steps")
    if drink.state == "made":
        message = f"Drink {drink.id} is bumped: recall it first."
        raise Refused(Code.DRINK_MADE, message, "drink", drink.id, (f"recall {drink.id}",))
    begun = tuple(n for n in wanted if drink.steps[n - 1].state != "todo")
    return (StepsReopened(at, drink.id, begun),) if begun else ()


def _bump(drink: Drink, at: int) -> tuple[Event, ...]:
    return () if drink.state == "made" else (DrinkBumped(at, drink.id),)


def _recall(drink: Drink, at: int) -> tuple[Event, ...]:
    return (DrinkRecalled(at, drink.id),) if drink.state == "made" else ()


def _hand_off(state: State, order: str, at: int) -> tuple[Event, ...]:
    ticket = find_ticket(state, order)
    missing = [drink for drink in ticket.drinks if drink.state not in ("made", "void")]
    if missing:
        named = ", ".join(f"{drink.rung.title} ({drink.id})" for drink in missing)
        message = f"Order {order} is not ready: still to make {named}."
        accepted = tuple(f"bump {drink.id}" for drink in missing)
        raise Refused(Code.NOT_READY, message, "ticket", order, accepted)
    return (HandedOff(at, order),)


def _take_back(state: State, order: str, at: int) -> tuple[Event, ...]:
    if _ended(state, order) != "handed off":
        find_ticket(state, order)
        return ()
    if order not in state.handed:
        message = f"Order {order} is of an earlier day: its hand-off can no longer be taken back."
        accepted = ("an order of today that was handed off", "a remake, rung in anew")
        raise Refused(Code.TICKET_CLOSED, message, "ticket", order, accepted)
    return (HandOffTakenBack(at, order),)


def _sell_out(state: State, command: ask.SellOut, at: int) -> tuple[Event, ...]:
    if (command.item in state.sold_out) == command.sold_out:
        return ()
    return (SoldOut(at, command.item) if command.sold_out else BackOn(at, command.item),)


def _open_book(state: State, command: ask.OpenBook, at: int) -> tuple[Event, ...]:
    if state.book == command.version and (state.anyway or not command.anyway):
        return ()
    return (
        BookOpened(
            at,
            command.version,
            command.time_zone,
            command.day_starts_min,
            command.anyway,
            command.last_touch,
        ),
    )
