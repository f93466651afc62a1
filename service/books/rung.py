"""A line of the book as it was rung in: what the bar keeps of it, and never asks the book again."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


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
