"""What a display sends: commands over HTTP, and the wish to follow."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from service.books.wire import LineIn
from service.wire import Asked, Id


class DrinkIn(Asked):
    """A line of an order with how many of it, and a note for the bar."""

    line: LineIn
    quantity: Annotated[int, Field(ge=1, le=50)] = 1
    note: Annotated[str, Field(max_length=2000)] = ""


class RingIn(Asked):
    """POST /api/orders."""

    name: Annotated[str, Field(max_length=2000)] = ""
    drinks: Annotated[list[DrinkIn], Field(min_length=1, max_length=100)]


class StartStep(Asked):
    """POST /api/drinks/{id}/start: the timer of one step begins."""

    step: Annotated[int, Field(ge=1, le=200)]


class FinishSteps(Asked):
    """POST /api/drinks/{id}/finish: one or more steps (a whole cell of the sheet) are done."""

    steps: Annotated[list[Annotated[int, Field(ge=1, le=200)]], Field(min_length=1, max_length=200)]


class DrinksIn(Asked):
    """POST /api/drinks/bump and /api/drinks/recall: several drinks as one, all of them or none."""

    drinks: Annotated[list[Id], Field(min_length=1, max_length=200)]


class WorkIn(Asked):
    """POST /api/drinks/work: alike drinks worked as one.

    Steps of ``reopen`` are to do again, those of ``finish`` are done, then the timer of ``start`` begins.
    No step is both reopened and finished or started, so that it may be sent twice.
    """

    drinks: Annotated[list[Id], Field(min_length=1, max_length=200)]
    reopen: Annotated[list[Annotated[int, Field(ge=1, le=200)]], Field(max_length=200)] = []  # noqa: RUF012  (pydantic copies it)
    finish: Annotated[list[Annotated[int, Field(ge=1, le=200)]], Field(max_length=200)] = []  # noqa: RUF012  (pydantic copies it)
    start: Annotated[int, Field(ge=1, le=200)] | None = None


class ChangeIn(Asked):
    """POST /api/drinks/{id}/change: another line for one cup; a note left out stays as it was."""

    line: LineIn
    note: Annotated[str, Field(max_length=2000)] | None = None


class RemakeIn(Asked):
    """POST /api/drinks/{id}/remake: one cup again, as another line where one is given."""

    reason: Annotated[str, Field(min_length=1, max_length=500)]
    line: LineIn | None = None
    note: Annotated[str, Field(max_length=2000)] | None = None


class DifferenceIn(Asked):
    """POST /api/drinks/{id}/difference: one cup as another line, or struck off where none is given."""

    line: LineIn | None = None


class VoidIn(Asked):
    """POST /api/drinks/{id}/void and /api/tickets/{id}/void."""

    reason: Annotated[str, Field(min_length=1, max_length=500)]


class SoldOutIn(Asked):
    """POST /api/sold-out: an ingredient, topping, milk or drink runs out, or is back."""

    item: Id
    sold_out: bool


class Follow(Asked):
    """Socket event ``follow``, display to service: join, from the last position seen (or None).

    ``store`` is that of the snapshot or change last seen: in another, or without it, the whole is sent.
    """

    since: Annotated[int, Field(ge=0)] | None = None
    store: Annotated[str, Field(max_length=80)] | None = None
