"""Taste against hands: what more or less patience makes of a whole menu."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from service.bench.wire.base import MOST_EDITS
from service.bench.wire.book import Edit
from service.wire import Asked, Wire


class TradeOffIn(Asked):
    """POST /api/owner/trade-off: reckon the folder's book with these edits, or go on with it."""

    edits: Annotated[list[Edit], Field(max_length=MOST_EDITS)]


class TradePoint(Wire):
    """What a patience (s) makes of the lines: the share of fussy builds in per cent, seconds that hands
    measure for a drink, and how far parts (no sweeteners) are off, in per cent: the median and the 95th
    percentile.
    """

    patience: float
    built: int
    refused: int
    fussy_pct: float
    seconds: float
    median_pct: float
    p95_pct: float


class TradeOff(Wire):
    """GET /api/owner/trade-off: as far as it has come, from ``lines`` drawn with ``seed``.

    ``done`` of ``total`` builds are looked at. ``patience`` is the one in the book.
    """

    version: str
    state: Literal["none", "running", "done", "failed"]
    patience: float
    lines: int
    seed: int
    done: int
    total: int
    points: list[TradePoint]
