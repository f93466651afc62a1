"""A line of the book as it was rung in: what the bar keeps of it, and never asks the book again."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Work:
    """One step of a drink as far as the bar cares: where, its label, and how long its timer runs (seconds; 0
    where it has none).

    The rest is for whoever plans the bar or reckons what went in, and unknown in records of before it was
    kept. ``attended_s`` is how long it holds a pair of hands, ``unattended_s`` how long it runs by itself,
    each from the least to the most, None where the book does not say. ``vessel`` names where it goes, on the
    first step that puts something there; ``ingredient`` and ``grams`` are what goes in.
    """

    station: str
    label: str
    low_s: float
    high_s: float
    attended_s: tuple[float, float] | None = None
    unattended_s: tuple[float, float] | None = None
    vessel: str = ""
    ingredient: str | None = None
    grams: float | None = None


@dataclass(frozen=True, slots=True)
class RungLine:
    """One line of an order: ``quantity`` cups of the same build.

    ``line`` is the order line as the book's house wrote it; the bar does not look inside. ``item`` is
    the drink on the menu, ``item_name`` its name that day; ``unit`` is minor units a cup, ``cost`` what its
    ingredients cost, unrounded; None in records of before that was kept.
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
    cost: float | None = None
