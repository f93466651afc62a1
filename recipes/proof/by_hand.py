"""What one build asks of a pair of hands: what is fussy about it, and how long its measuring takes."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from recipes.book import Book
from recipes.hands import Fuss, Hands, Measure, fuss, seconds
from recipes.measures import figure
from recipes.model import Amount, Build


@dataclass(frozen=True, slots=True)
class Fussy:
    """One fussy measure of a build: its kind, and what is measured in words ("¾ scoops of Taro")."""

    kind: Fuss
    what: str


@dataclass(frozen=True, slots=True)
class ByHand:
    """A build by hand: its fussy measures in the order of the counter, and the seconds of hands that all its
    measuring takes, a change of tool for one ingredient among them."""

    fussy: tuple[Fussy, ...]
    seconds: float


def by_hand(book: Book, build: Build) -> ByHand:
    """What a build asks of the hands of its book."""
    found: list[Fussy] = []
    total = 0.0
    tools: dict[str, list[str]] = {}
    names: dict[str, str] = {}
    for step in build.steps:
        amount = step.amount
        if amount is None:
            continue
        each, fussy = _act(book.hands, book.tools[amount.tool].measure(amount.count))
        total += each
        if fussy is not None:
            found.append(Fussy(fussy, f"{_said(amount)} of {step.short}"))
        if step.ingredient is not None:
            names[step.ingredient] = step.short
            used = tools.setdefault(step.ingredient, [])
            if amount.tool not in used:
                used.append(amount.tool)
    for ingredient, used in tools.items():
        if len(used) > 1:
            total += (len(used) - 1) * book.hands.other_tool
            both = " and ".join(book.tools[tool].name for tool in used)
            found.append(Fussy("two tools", f"{names[ingredient]} by {both}"))
    return ByHand(tuple(found), total)


@lru_cache(maxsize=4096)
def _act(hands: Hands, measure: Measure) -> tuple[float, Fuss | None]:
    """Seconds and fuss of one act; a proof asks for the same few a million times."""
    return seconds(hands, measure), fuss(measure)


def _said(amount: Amount) -> str:
    return f"{figure(amount.count)} {amount.unit}"
