"""The steps of a drink at its sizes, as the rows of a recipe card."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from recipes.book import Book
from recipes.building.resolve import resolve
from recipes.measures import figure
from recipes.model import HOT, Amount, Build, Duration, Line, Refusal, Step
from recipes.proof.levels import ice_levels

Level = tuple[str, str]
"""A level's name, and its counts at each size."""


@dataclass(frozen=True, slots=True)
class CardRow:
    """One step of the card: what it is, and how it is at each size (None: not there)."""

    station: str
    label: str
    steps: tuple[Step | None, ...]

    @property
    def name(self) -> str:
        """The label, with the vessel on the first thing that goes into it."""
        into = next((step.into for step in self.steps if step is not None and step.into), "")
        return f"{self.label}, into {into}" if into else self.label


def card_rows(builds: Sequence[Build]) -> list[CardRow]:
    """The steps of several builds in one order: a step is known by station, label and how often it came."""
    keyed: list[dict[tuple[str, str, int], Step]] = []
    for build in builds:
        found: dict[tuple[str, str, int], Step] = {}
        for step in build.steps:
            times = sum(key[:2] == (step.station, step.short) for key in found)
            found[step.station, step.short, times] = step
        keyed.append(found)
    longest = max(keyed, key=len)
    order = list(dict.fromkeys([*longest, *(key for found in keyed for key in found)]))
    stations = list(dict.fromkeys(step.station for build in builds for step in build.steps))
    order.sort(key=lambda key: stations.index(key[0]))
    return [CardRow(key[0], key[1], tuple(found.get(key) for found in keyed)) for key in order]


def unshaken(about: str) -> str:
    """What the menu says of a drink, without its being shaken, where this card's is not."""
    return re.sub(r",? (?:and )?shaken(?: [^,.;]*)?(?=[,.;]|$)", "", about)


def level_rows(book: Book, drink: str, sizes: Sequence[str], ice: str) -> list[tuple[str, list[Level]]]:
    """What each sugar and each ice level comes to: "strokes", then ("half sugar", "2 / 3 / 4") and so on.

    Levels of a card that is hot are its sugars alone. A drink without a sweetener or without ice has no row.
    """
    plain = replace(book.drinks[drink].default, ice=ice)
    sugars = [
        (book.sugars[each].name, [_sweetener(book, replace(plain, size=size, sugar=each)) for size in sizes])
        for each in sorted(book.drinks[drink].sugars)
    ]
    by_size = [] if ice == HOT else [ice_levels(book, drink, size) for size in sizes]
    ices = [(levels[0][0].name, [amount for _, amount in levels]) for levels in zip(*by_size, strict=True)]
    rows = []
    for found in (sugars, ices):
        units = [amount.unit for _, amounts in found for amount in amounts if amount is not None]
        if units:
            rows.append((units[-1], [(name, " / ".join(map(_count, amounts))) for name, amounts in found]))
    return rows


def _count(amount: Amount | None) -> str:
    return "0" if amount is None else figure(amount.count)


def _sweetener(book: Book, line: Line) -> Amount | None:
    """What the first sweetener that goes in comes to; None where none does or the level is refused."""
    recipe = [step for step in book.drinks[line.drink].steps if step.role == "sweetener"]
    wanted = {step.instead.get(line.ice, step.ingredient or "") for step in recipe}
    try:
        steps = resolve(book, line).steps
    except Refusal:
        return None
    return next((step.amount for step in steps if step.ingredient in wanted), None)


def said(step: Step | None) -> str:
    """A step at one size: its amount, its time, or a dash where it is not made."""
    if step is None:
        return "–"
    parts = []
    if step.amount is not None:
        parts.append(f"{figure(step.amount.count)} {step.amount.unit}")
    if step.celsius is not None:
        parts.append(f"{step.celsius:.0f} °C")
    if step.duration is not None:
        parts.append(_time(step.duration))
    return " · ".join(parts) or "yes"


def _time(duration: Duration) -> str:
    low, high = f"{duration.low_s:.0f}", f"{duration.high_s:.0f}"
    return f"{high} s" if low == high else f"{low}–{high} s"


def holding(book: Book, builds: Sequence[Build]) -> str:
    """How long what goes in keeps once it is opened or made, the shortest first; "" where no time is written.

    The book's own times: local food codes come first."""
    uses = {ingredient for build in builds for ingredient in build.uses}
    found: dict[float, list[str]] = {}
    for ingredient in (book.pantry[each] for each in sorted(uses)):
        if ingredient.hold_s is not None:
            found.setdefault(ingredient.hold_s, []).append(ingredient.short.lower())
    told = "; ".join(f"{', '.join(names)} {_length(held)}" for held, names in sorted(found.items()))
    return f"Keeps, once opened or made: {told}. Local food codes come first." if told else ""


def _length(seconds: float) -> str:
    """A holding time as it is said: 45 min, 4 h, 3 days."""
    for unit, length in (("day", 86400), ("h", 3600), ("min", 60)):
        if seconds >= length and seconds % length == 0:
            count = round(seconds / length)
            return f"{count} {unit}{'s' if unit == 'day' and count > 1 else ''}"
    return f"{seconds / 60:.0f} min"
