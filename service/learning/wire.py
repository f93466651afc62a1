"""The wire of training: a bent drink with its amounts hidden, answers, and scores where they are kept.

The same rules as in ``service.wire``.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from recipes.model import Line
from service.books.wire import LineIn, Station
from service.wire import Asked, Id, Millis, Wire


class TrainingChoice(Wire):
    """One answer to pick: a count in the tool's unit, or seconds; and how it reads."""

    count: float
    text: str


class TrainingStep(Wire):
    """A step with its station and amount hidden: what is shown is what it is about.

    ``asks``: "amount" (count in ``unit`` of a tool of ``kind``), "heat" (°C),
    "time" (seconds), or only the station.
    """

    number: int
    action: str
    label: str
    asks: Literal["amount", "heat", "time", "station"]
    kind: str | None
    unit: str | None
    choices: list[TrainingChoice]


class TrainingDrink(Wire):
    """GET /api/training/drink?seed=: a bent drink to build. The same seed and book give the same drink."""

    seed: int
    book: str
    line: Line
    title: str
    words: list[str]
    about: str
    stations: list[Station]
    steps: list[TrainingStep]
    scores: bool


class CheckIn(Asked):
    """POST /api/training/check: what a hand would do at one step. ``person`` only where scores are kept."""

    line: LineIn
    step: Annotated[int, Field(ge=1, le=200)]
    station: Id
    count: Annotated[float, Field(ge=0, le=100_000, allow_inf_nan=False)] | None = None
    person: Annotated[str, Field(max_length=40)] = ""


class PersonScore(Wire):
    """How one person has done so far."""

    person: str
    right: int
    answered: int
    last_at: Millis


class Checked(Wire):
    """Right, or what would be right and why. ``score`` is the person's, where it is kept."""

    right: bool
    station_right: bool
    count_right: bool
    station: str
    count: float | None
    text: str
    why: str
    score: PersonScore | None


class TrainingIn(Asked):
    """PUT /api/owner/training: whether a score is kept per person. Turned off, those kept are deleted."""

    scores: bool


class ForgetIn(Asked):
    """POST /api/owner/training/forget: delete what is kept of one person."""

    person: Annotated[str, Field(min_length=1, max_length=40)]


class Scores(Wire):
    """GET /api/training/scores."""

    on: bool
    people: list[PersonScore]
