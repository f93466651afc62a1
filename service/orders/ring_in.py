"""Taking an order: its number, its business day, its totals; refused when something is sold out."""

from __future__ import annotations

from collections.abc import Mapping

from service.books.rung import RungLine
from service.calendar.days import business_day
from service.journal.refusals import Code, Refused
from service.money.totals import totals
from service.orders.commands import OrderLine, RingIn
from service.orders.events import RungIn
from service.orders.state import State

CUPS_MAX = 200
"""The most cups of one order: more is a slip of the finger, and a wall of rows for the bar."""


def ring_in(state: State, command: RingIn, at: int) -> tuple[RungIn]:
    """The one event of an order taken at ``at``. Ids and numbers follow from the state alone."""
    if state.calendar is None:
        message = "No book is open yet, so there is nothing to ring in."
        raise Refused(Code.NO_BOOK, message, "", "")
    _check(state, command.lines)
    # A changed time zone must not open a day anew whose numbers were already called.
    day = max(business_day(at, state.calendar), state.day or "")
    amounts = [line.unit * line.quantity for line in command.lines]
    return (
        RungIn(
            at=at,
            order=str(state.orders + 1),
            number=state.number + 1 if day == state.day else 1,
            day=day,
            name=command.name,
            lines=tuple(rung(line) for line in command.lines),
            totals=totals(amounts, command.tax, command.currency),
        ),
    )


def _check(state: State, lines: tuple[OrderLine, ...]) -> None:
    if not lines:
        message = "An order needs at least one drink."
        raise Refused(Code.EMPTY_ORDER, message, "drinks", "none", ("1 drink or more",))
    cups = sum(line.quantity for line in lines)
    if cups > CUPS_MAX:
        message = f"{cups} cups in one order: at most {CUPS_MAX}. Ring the rest in as another order."
        raise Refused(Code.TOO_MANY_CUPS, message, "drinks", str(cups), (f"up to {CUPS_MAX} cups",))
    for n, line in enumerate(lines):
        at_hand(state, line.title, line.needs, f"drinks[{n}].line")


def at_hand(state: State, title: str, needs: Mapping[str, str], field: str) -> None:
    """Refuses a drink that needs something sold out; ``field`` is where it was asked for."""
    gone = [item for item in needs if item in state.sold_out]
    if gone:
        named = ", ".join(dict.fromkeys(needs[item] for item in gone))
        message = f"{title} cannot be made: {named} sold out."
        raise Refused(Code.SOLD_OUT, message, field, ", ".join(gone), ("a drink without it",))


def rung(line: OrderLine) -> RungLine:
    """The line as it stands in an event."""
    return RungLine(
        item=line.item,
        item_name=line.item_name,
        line=line.line,
        book=line.book,
        build=line.build,
        title=line.title,
        words=line.words,
        quantity=line.quantity,
        unit=line.unit,
        note=line.note,
        uses=line.uses,
        work=line.work,
        cost=line.cost,
    )
