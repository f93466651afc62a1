"""Trying an edit: what it would do to a drink, to its sizes and to every recipe."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from recipes.model import Balance, ComponentError, Line
from service.bench.wire.base import MOST_EDITS
from service.bench.wire.book import Edit
from service.bench.wire.proposing import CellAmount
from service.books.wire import BookFault, Build, LineIn, Menu
from service.wire import Asked, Minor, Wire


class TryIn(Asked):
    """POST /api/owner/try: what would these edits do? Nothing is saved."""

    edits: Annotated[list[Edit], Field(max_length=MOST_EDITS)]
    line: LineIn


class Money(Wire):
    """What one drink brings: its price, that without tax, its ingredients' cost, and the rest."""

    price: Minor
    net: float
    cost: float
    margin: float
    margin_pct: float


class Outcome(Wire):
    """A line in one book: its build, what it comes to, how far its components are off (the furthest first)
    and its money; or why it is refused."""

    line: Line | None
    build: Build | None
    balance: Balance | None
    energy_words: str
    errors: list[ComponentError]
    money: Money | None
    refusal: str | None


class SizeOutcome(Wire):
    """The line at one size, before and after; ``error_pct`` is the worst component's."""

    size: str
    name: str
    before: Outcome
    after: Outcome
    before_error_pct: float | None
    after_error_pct: float | None


class DoseChange(Wire):
    """An amount that changes: "2 scoops" to "2½ scoops", at one size of the drink as it comes."""

    size: str
    title: str
    label: str
    before: str
    after: str


class ComponentChange(Wire):
    """By how much a component's share of a drink changes (per cent, with its sign), where it does so most."""

    label: str
    change_pct: float
    title: str


class Mover(Wire):
    """A recipe that moves: the worst change of any component's share of the drink, and every changed dose.

    Looked at are the drink as it comes at every size, iced and hot. ``components`` are all that change, the
    most changed first. ``refused`` tells what can no longer be made, ``allergens`` what changes in what must
    be told.
    """

    drink: str
    name: str
    worst_pct: float
    worst_label: str
    components: list[ComponentChange]
    doses: list[DoseChange]
    refused: list[str]
    allergens: list[str]


class Trial(Wire):
    """The answer to a try. With ``faults`` the edited book would be refused, and nothing else is told.

    ``amounts`` are those of the drink tried, at every size. ``menu`` is that of the edited book, for a drink
    that the register does not have yet.
    """

    version: str
    faults: list[BookFault]
    before: Outcome | None
    after: Outcome | None
    sizes: list[SizeOutcome]
    movers: list[Mover]
    amounts: list[CellAmount]
    menu: Menu | None = None
