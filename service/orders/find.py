"""Finding the ticket, drink or steps that a command names; a refusal where there is none."""

from __future__ import annotations

from collections.abc import Iterable

from service.journal.refusals import Code, Refused
from service.orders.state import Drink, State, Ticket

_SHOWN = 12


def find_ticket(state: State, order: str) -> Ticket:
    """The open ticket of that id. Refused when it never was, or has been handed off or voided."""
    if order in state.tickets:
        return state.tickets[order]
    ending = state.closed.get(order)
    if ending is None:
        if order.isascii() and order.isdecimal() and not order.startswith("0") and _was(state, order):
            raise Refused(
                Code.TICKET_CLOSED,
                f"Order {order} was handed off or voided on an earlier day.",
                "ticket",
                order,
                _open(state),
            )
        message = f"There is no ticket {order!r}."
        raise Refused(Code.UNKNOWN_TICKET, message, "ticket", order, _open(state))
    if ending[1] == "void":
        message = f"Order {order} was voided."
        raise Refused(Code.TICKET_VOID, message, "ticket", order, _open(state))
    how = (
        "Take the hand-off back first, or ring in a remake." if order in state.handed else "Ring in a remake."
    )
    message = f"Order {order} was handed off. {how}"
    raise Refused(Code.HANDED_OFF, message, "ticket", order, _open(state))


def find_drink(state: State, drink: str) -> Drink:
    """The drink of that id on an open ticket, void or not."""
    order, _, _ = drink.rpartition(".")
    if not order:
        message = f"There is no drink {drink!r}; a drink is named like 17.2, the second of order 17."
        raise Refused(Code.UNKNOWN_DRINK, message, "drink", drink, ("the id of a drink, like 17.2",))
    drinks = find_ticket(state, order).drinks
    for each in drinks:
        if each.id == drink:
            return each
    message = f"Order {order} has no drink {drink!r}."
    raise Refused(Code.UNKNOWN_DRINK, message, "drink", drink, _few(each.id for each in drinks))


def find_steps(drink: Drink, steps: Iterable[int], field: str) -> tuple[int, ...]:
    """The steps asked for, each once and in order, all of which the drink has."""
    wanted = sorted(set(steps))
    count = len(drink.steps)
    for step in wanted:
        if not 1 <= step <= count:
            message = f"Drink {drink.id} has no step {step}: its steps are 1 to {count}."
            accepted = _few(str(n) for n in range(1, count + 1))
            raise Refused(Code.UNKNOWN_STEP, message, field, str(step), accepted)
    return tuple(wanted)


def not_void(drink: Drink) -> Drink:
    """The drink itself, unless it was struck off."""
    if drink.state == "void":
        accepted = ("a drink that is not void",)
        raise Refused(Code.DRINK_VOID, f"Drink {drink.id} was voided.", "drink", drink.id, accepted)
    return drink


def _was(state: State, order: str) -> bool:
    return len(order) <= len(str(state.orders)) and int(order) <= state.orders


def _open(state: State) -> tuple[str, ...]:
    return _few(state.tickets) or ("the id of an open ticket; none is open now",)


def _few(names: Iterable[str]) -> tuple[str, ...]:
    """The latest few of the accepted names: enough to see a slip, short enough to read."""
    return tuple(names)[-_SHOWN:]
