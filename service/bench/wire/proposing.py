"""Amounts by size: what follows where nothing is written, and what is proposed to be written."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from service.bench.wire.base import MOST_EDITS
from service.bench.wire.book import Edit
from service.books.wire import BookFault
from service.wire import Asked, Wire


class CellAmount(Wire):
    """What a step (its place from 0) puts in at a size: ``text`` in the words of its tool, as it is written
    or as it follows from the size that the steps are written for.
    """

    step: int
    size: str
    hot: bool
    text: str
    written: bool


class ProposeIn(Asked):
    """POST /api/owner/propose: what would a hand measure at the sizes that are not written?

    Of these drinks, or of all; ``anew``: for what is written, too. ``edits`` are made first; nothing
    is saved.
    """

    edits: Annotated[list[Edit], Field(max_length=MOST_EDITS)]
    drinks: Annotated[list[str], Field(max_length=200)] | None = None
    anew: bool = False


class OfferedAmount(Wire):
    """An amount to write: how far off proportion in per cent, seconds of hands, and which sugar levels come
    to the same count with it (per cent, in groups).
    """

    text: str
    error_pct: float
    seconds: float
    alike: list[list[int]]


class ProposedAmount(Wire):
    """A proposal for one cell, and others to choose from. ``wanted`` is proportion, ``written`` what stands
    there by now; ``lowered``: what is nearer would not fit the cup or the vessel.
    """

    drink: str
    drink_name: str
    step: int
    name: str
    size: str
    size_name: str
    hot: bool
    wanted: str
    written: str | None
    best: OfferedAmount
    others: list[OfferedAmount]
    lowered: bool


class Proposed(Wire):
    """What is proposed, by drink, step and size. With ``faults`` the edited book would be refused."""

    rows: list[ProposedAmount]
    faults: list[BookFault]
