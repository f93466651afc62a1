"""What has happened at the bar, in the past tense. An event never changes once it is written.

``at`` is milliseconds since 1970 UTC and never lower than that of the event before. An event carries
all that the bar needs to know later, so that nothing here ever asks for the book again.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from service.money.totals import Totals


@dataclass(frozen=True, slots=True)
class Work:
    """One step of a drink as far as the queue cares: where, its label, and how long (seconds)."""

    station: str
    label: str
    low_s: float
    high_s: float


@dataclass(frozen=True, slots=True)
class RungLine:
    """One line of an order: ``quantity`` cups of the same build.

    ``line`` is the order line as the book's house wrote it; the bar does not look inside. ``item`` is
    the drink on the menu, ``item_name`` its name that day; ``unit`` is minor units a cup.
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


@dataclass(frozen=True, slots=True)
class BookOpened:
    """A book came into force, and with it the shop's calendar; ``anyway``: by the owner's explicit word.

    ``last_touch``: from now on a drink is bumped by what does its last step.
    """

    at: int
    version: str
    time_zone: str
    day_starts_min: int
    anyway: bool = False
    last_touch: bool = False


@dataclass(frozen=True, slots=True)
class SoldOut:
    """An ingredient, topping, milk or drink ran out."""

    at: int
    item: str


@dataclass(frozen=True, slots=True)
class BackOn:
    """What was sold out is back."""

    at: int
    item: str


@dataclass(frozen=True, slots=True)
class RungIn:
    """An order was taken. Its drinks are ``<order>.1`` and on, line by line, cup by cup."""

    at: int
    order: str
    number: int
    day: str
    name: str
    lines: tuple[RungLine, ...]
    totals: Totals


@dataclass(frozen=True, slots=True)
class StepStarted:
    """The timer of a step began (steps count from 1)."""

    at: int
    drink: str
    step: int


@dataclass(frozen=True, slots=True)
class StepsFinished:
    """One or more steps of a drink were done."""

    at: int
    drink: str
    steps: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class StepsReopened:
    """Steps begun or marked done by mistake are to do again, as if no hand had been at them."""

    at: int
    drink: str
    steps: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class DrinkBumped:
    """A drink was made; steps still open count as done with it."""

    at: int
    drink: str


@dataclass(frozen=True, slots=True)
class DrinkRecalled:
    """A made drink came back to the bar, as it stood before it was bumped."""

    at: int
    drink: str


@dataclass(frozen=True, slots=True)
class DrinkVoided:
    """A drink was struck off. ``begun`` tells whether hands had been at it, so that waste is known."""

    at: int
    drink: str
    reason: str
    begun: bool


@dataclass(frozen=True, slots=True)
class DrinkChanged:
    """A cup that no hand had been at is another from now on, in its old place; ``line`` is its own."""

    at: int
    drink: str
    line: RungLine


@dataclass(frozen=True, slots=True)
class DrinkRemade:
    """A cup that was begun or made is thrown away and made again, as ``line`` where that is given."""

    at: int
    drink: str
    reason: str
    line: RungLine | None = None


@dataclass(frozen=True, slots=True)
class HandedOff:
    """All that is not void of an order went over the counter."""

    at: int
    order: str


@dataclass(frozen=True, slots=True)
class HandOffTakenBack:
    """A hand-off was a mistake: the order stands ready at the counter again, as before it."""

    at: int
    order: str


WorkEvent = StepStarted | StepsFinished | StepsReopened | DrinkBumped | DrinkRecalled
DrinkEvent = WorkEvent | DrinkVoided | DrinkChanged | DrinkRemade
OrderEvent = RungIn | DrinkEvent | HandedOff | HandOffTakenBack
Event = BookOpened | SoldOut | BackOn | OrderEvent


def lines_in(event: Event) -> tuple[RungLine, ...]:
    """The lines that an event brings in, whose builds a display may not have yet."""
    match event:
        case RungIn():
            return event.lines
        case DrinkChanged() | DrinkRemade():
            return () if event.line is None else (event.line,)
        case _:
            return ()


def order_of(event: Event) -> str | None:
    """The order that an event is about, if it is about one."""
    match event:
        case RungIn() | HandedOff() | HandOffTakenBack():
            return event.order
        case BookOpened() | SoldOut() | BackOn():
            return None
        case _:
            return event.drink.rpartition(".")[0]
