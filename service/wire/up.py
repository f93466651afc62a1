"""What a display sends: commands over HTTP, and the wish to follow."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from service.wire.base import Id, Wire


class ToppingIn(Wire):
    """A topping of a line as rung in."""

    topping: Id
    half: bool = False


class LineIn(Wire):
    """A line as rung in. A choice left out takes the drink's own default from the book."""

    drink: Id
    size: Id | None = None
    sugar: Annotated[int, Field(ge=0, le=1000)] | None = None
    ice: Id | None = None
    shots: Annotated[int, Field(ge=0, le=20)] = 0
    toppings: Annotated[list[ToppingIn], Field(max_length=20)] = []  # noqa: RUF012  (pydantic copies it)
    milk: Id | None = None
    without: Annotated[list[Id], Field(max_length=20)] = []  # noqa: RUF012  (pydantic copies it)


class DrinkIn(Wire):
    """A line of an order with how many of it, and a note for the bar."""

    line: LineIn
    quantity: Annotated[int, Field(ge=1, le=50)] = 1
    note: Annotated[str, Field(max_length=2000)] = ""


class RingIn(Wire):
    """POST /api/orders."""

    name: Annotated[str, Field(max_length=2000)] = ""
    drinks: Annotated[list[DrinkIn], Field(min_length=1, max_length=100)]


class StartStep(Wire):
    """POST /api/drinks/{id}/start: the timer of one step begins."""

    step: Annotated[int, Field(ge=1, le=200)]


class FinishSteps(Wire):
    """POST /api/drinks/{id}/finish: one or more steps (a whole cell of the sheet) are done."""

    steps: Annotated[list[Annotated[int, Field(ge=1, le=200)]], Field(min_length=1, max_length=200)]


class DrinksIn(Wire):
    """POST /api/drinks/bump and /api/drinks/recall: several drinks as one, all of them or none."""

    drinks: Annotated[list[Id], Field(min_length=1, max_length=200)]


class WorkIn(Wire):
    """POST /api/drinks/work: alike drinks worked as one.

    Steps of ``reopen`` are to do again, those of ``finish`` are done, then the timer of ``start`` begins.
    No step is both reopened and finished or started, so that it may be sent twice.
    """

    drinks: Annotated[list[Id], Field(min_length=1, max_length=200)]
    reopen: Annotated[list[Annotated[int, Field(ge=1, le=200)]], Field(max_length=200)] = []  # noqa: RUF012  (pydantic copies it)
    finish: Annotated[list[Annotated[int, Field(ge=1, le=200)]], Field(max_length=200)] = []  # noqa: RUF012  (pydantic copies it)
    start: Annotated[int, Field(ge=1, le=200)] | None = None


class ChangeIn(Wire):
    """POST /api/drinks/{id}/change: another line for one cup; a note left out stays as it was."""

    line: LineIn
    note: Annotated[str, Field(max_length=2000)] | None = None


class RemakeIn(Wire):
    """POST /api/drinks/{id}/remake: one cup again, as another line where one is given."""

    reason: Annotated[str, Field(min_length=1, max_length=500)]
    line: LineIn | None = None
    note: Annotated[str, Field(max_length=2000)] | None = None


class DifferenceIn(Wire):
    """POST /api/drinks/{id}/difference: one cup as another line, or struck off where none is given."""

    line: LineIn | None = None


class VoidIn(Wire):
    """POST /api/drinks/{id}/void and /api/tickets/{id}/void."""

    reason: Annotated[str, Field(min_length=1, max_length=500)]


class SoldOutIn(Wire):
    """POST /api/sold-out: an ingredient, topping, milk or drink runs out, or is back."""

    item: Id
    sold_out: bool


class Done(Wire):
    """The answer to a command: where the journal stands now, and whether anything changed."""

    position: int
    changed: bool


class Follow(Wire):
    """Socket event ``follow``, display to service: join, from the last position seen (or None).

    ``store`` is that of the snapshot or change last seen: in another, or without it, the whole is sent.
    """

    since: Annotated[int, Field(ge=0)] | None = None
    store: Annotated[str, Field(max_length=80)] | None = None
