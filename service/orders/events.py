"""What has happened at the bar, in the past tense. An event never changes once it is written.

``at`` is milliseconds since 1970 UTC and never lower than that of the event before. An event carries
all that the bar needs to know later, so that nothing here ever asks for the book again.
"""

from __future__ import annotations

from dataclasses import dataclass

from service.books.rung import RungLine
from service.journal.kinds import Recorded
from service.money.totals import Totals


@dataclass(frozen=True, slots=True)
class BookOpened(Recorded):
    """A book came into force, and with it the shop's calendar; ``anyway``: by the owner's explicit word.

    ``last_touch``: from now on a drink is bumped by what does its last step.
    """

    version: str
    time_zone: str
    day_starts_min: int
    anyway: bool = False
    last_touch: bool = False


@dataclass(frozen=True, slots=True)
class SoldOut(Recorded):
    """An ingredient, topping, milk or drink ran out."""

    item: str


@dataclass(frozen=True, slots=True)
class BackOn(Recorded):
    """What was sold out is back."""

    item: str


@dataclass(frozen=True, slots=True)
class RungIn(Recorded):
    """An order was taken. Its drinks are ``<order>.1`` and on, line by line, cup by cup."""

    order: str
    number: int
    day: str
    name: str
    lines: tuple[RungLine, ...]
    totals: Totals


@dataclass(frozen=True, slots=True)
class StepStarted(Recorded):
    """The timer of a step began (steps count from 1)."""

    drink: str
    step: int


@dataclass(frozen=True, slots=True)
class StepsFinished(Recorded):
    """One or more steps of a drink were done."""

    drink: str
    steps: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class StepsReopened(Recorded):
    """Steps begun or marked done by mistake are to do again, as if no hand had been at them."""

    drink: str
    steps: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class DrinkBumped(Recorded):
    """A drink was made; steps still open count as done with it."""

    drink: str


@dataclass(frozen=True, slots=True)
class DrinkRecalled(Recorded):
    """A made drink came back to the bar, as it stood before it was bumped."""

    drink: str


@dataclass(frozen=True, slots=True)
class DrinkVoided(Recorded):
    """A drink was struck off. ``begun`` tells whether hands had been at it, so that waste is known."""

    drink: str
    reason: str
    begun: bool


@dataclass(frozen=True, slots=True)
class DrinkChanged(Recorded):
    """A cup that no hand had been at is another from now on, in its old place; ``line`` is its own."""

    drink: str
    line: RungLine


@dataclass(frozen=True, slots=True)
class DrinkRemade(Recorded):
    """A cup that was begun or made is thrown away and made again, as ``line`` where that is given."""

    drink: str
    reason: str
    line: RungLine | None = None


@dataclass(frozen=True, slots=True)
class HandedOff(Recorded):
    """All that is not void of an order went over the counter."""

    order: str


@dataclass(frozen=True, slots=True)
class HandOffTakenBack(Recorded):
    """A hand-off was a mistake: the order stands ready at the counter again, as before it."""

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
