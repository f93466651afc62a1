"""What one build asks of a pair of hands: what is fussy about it, and how long its measuring takes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from recipes.book import Book
from recipes.hands import Fuss, fuss, seconds
from recipes.measures import figure
from recipes.model import Amount, Build, Step


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


class Acts:
    """What the measuring acts of a book ask of hands: a proof asks for the same few a million times."""

    def __init__(self, book: Book) -> None:
        self._book = book
        self._known: dict[tuple[str, float], tuple[float, Fuss | None]] = {}

    def of(self, amount: Amount) -> tuple[float, Fuss | None]:
        """Seconds and fuss of one act."""
        key = (amount.tool, amount.count)
        known = self._known.get(key)
        if known is None:
            measure = self._book.tools[amount.tool].measure(amount.count)
            known = self._known[key] = seconds(self._book.hands, measure), fuss(measure)
        return known


def by_hand(book: Book, build: Build, acts: Acts | None = None) -> ByHand:
    """What a build asks of the hands of its book; ``acts`` are the book's, where many builds are asked."""
    return of_steps(book, build.steps, acts or Acts(book))


def of_steps(book: Book, steps: Iterable[Step], acts: Acts) -> ByHand:
    """What some steps of a build ask of the hands of its book."""
    found: list[Fussy] = []
    total = 0.0
    first: dict[str, str] = {}
    others: dict[str, list[str]] = {}
    names: dict[str, str] = {}
    for step in steps:
        amount = step.amount
        if amount is None:
            continue
        took, fussy = acts.of(amount)
        total += took
        if fussy is not None:
            found.append(Fussy(fussy, f"{_said(amount)} of {step.short}"))
        ingredient, tool = step.ingredient, amount.tool
        if ingredient is not None and first.setdefault(ingredient, tool) != tool:
            names[ingredient] = step.short
            used = others.setdefault(ingredient, [])
            if tool not in used:
                used.append(tool)
    for ingredient, used in others.items():
        total += len(used) * book.hands.other_tool
        both = " and ".join(book.tools[tool].name for tool in (first[ingredient], *used))
        found.append(Fussy("two tools", f"{names[ingredient]} by {both}"))
    return ByHand(tuple(found), total)


def _said(amount: Amount) -> str:
    return f"{figure(amount.count)} {amount.unit}"
