"""What may be asked of the bar, in the imperative. Ids are texts as on the wire."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from service.books.rung import Work
from service.money.totals import TaxRule


@dataclass(frozen=True, slots=True)
class OrderLine:
    """One line to ring in, already resolved and priced; see ``events.RungLine`` for the fields.

    ``needs`` are the ids whose selling out blocks the line, each with its name for people.
    """

    item: str
    item_name: str
    line: Mapping[str, object]
    book: str
    build: str
    title: str
    words: tuple[str, ...]
    quantity: int
    unit: int
    note: str
    uses: tuple[str, ...]
    work: tuple[Work, ...]
    needs: Mapping[str, str]
    cost: float | None = None


@dataclass(frozen=True, slots=True)
class RingIn:
    """Take an order."""

    name: str
    lines: tuple[OrderLine, ...]
    currency: str
    tax: TaxRule


@dataclass(frozen=True, slots=True)
class StartStep:
    """Begin the timer of a step."""

    drink: str
    step: int


@dataclass(frozen=True, slots=True)
class FinishSteps:
    """Mark steps done."""

    drink: str
    steps: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class ReopenSteps:
    """Take back that steps were begun or done."""

    drink: str
    steps: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class BumpDrink:
    """Mark a drink made."""

    drink: str


@dataclass(frozen=True, slots=True)
class BumpTicket:
    """Mark every drink of a ticket made."""

    order: str


@dataclass(frozen=True, slots=True)
class RecallDrink:
    """Bring a made drink back to the bar."""

    drink: str


@dataclass(frozen=True, slots=True)
class RecallTicket:
    """Bring every made drink of a ticket back to the bar."""

    order: str


@dataclass(frozen=True, slots=True)
class VoidDrink:
    """Strike a drink off."""

    drink: str
    reason: str


@dataclass(frozen=True, slots=True)
class ChangeDrink:
    """Let a cup that nobody has begun be another; ``line`` is of this one cup."""

    drink: str
    line: OrderLine


@dataclass(frozen=True, slots=True)
class RemakeDrink:
    """Throw a cup away and make it again: as ``line``, or as it was where that is None.

    ``needs`` are what must not have run out for it as it was, as of an ``OrderLine``.
    """

    drink: str
    reason: str
    line: OrderLine | None
    needs: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class VoidTicket:
    """Strike a whole ticket off."""

    order: str
    reason: str


@dataclass(frozen=True, slots=True)
class HandOff:
    """Give a ready ticket out."""

    order: str


@dataclass(frozen=True, slots=True)
class TakeBack:
    """Take a hand-off back: the wrong number was touched, or the wrong hands reached for it."""

    order: str


@dataclass(frozen=True, slots=True)
class SellOut:
    """Say that an item ran out, or (``sold_out`` False) is back."""

    item: str
    sold_out: bool


@dataclass(frozen=True, slots=True)
class OpenBook:
    """Bring a book into force; ``anyway`` by the owner's word, though its proof does not hold.

    ``last_touch``: a drink whose every step is done is bumped by what did the last of them.
    """

    version: str
    time_zone: str
    day_starts_min: int
    anyway: bool = False
    last_touch: bool = False


WorkCommand = StartStep | FinishSteps | ReopenSteps | BumpDrink | RecallDrink
CupCommand = VoidDrink | ChangeDrink | RemakeDrink
DrinkCommand = WorkCommand | CupCommand


@dataclass(frozen=True, slots=True)
class Together:
    """Several drinks worked as one, as when alike cups stand side by side: all of it happens, or nothing."""

    parts: tuple[DrinkCommand, ...]


TicketCommand = BumpTicket | RecallTicket | VoidTicket | HandOff | TakeBack
Command = RingIn | DrinkCommand | Together | TicketCommand | SellOut | OpenBook
