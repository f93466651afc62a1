"""Adding up what builds ask of hands, and how far their parts are off: aggregates that merge exactly."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace

from recipes.book import Book
from recipes.hands import Fuss
from recipes.model import Build, Line
from recipes.proof.by_hand import ByHand, Fussy
from recipes.proof.model import Fussiness, HandProof, Sweetest
from recipes.telling import words

BIN_PCT = 0.5
"""How wide a bin of the histogram is, per cent: nobody tastes half a per cent."""

MOST_PCT = 50.0
"""The last bin holds all errors from here up."""

BINS = round(MOST_PCT / BIN_PCT) + 1
"""Bin k holds what is nearest to k times ``BIN_PCT``, so that what is not off at all reads as 0."""


@dataclass(frozen=True, slots=True)
class Off:
    """How far the parts of a build are off: bins of the histogram, and its sweeteners by name, in steps of
    their tool."""

    bins: tuple[int, ...]
    sweeteners: tuple[tuple[str, float], ...]


@dataclass(slots=True)
class HandTally:
    """The aggregates by hand of one drink, or of a part of its combinations."""

    book: Book
    drink: str
    built: int = 0
    fussy: int = 0
    seconds: float = 0.0
    fuss: dict[Fuss, Fussiness] = field(default_factory=dict)
    parts: list[int] = field(default_factory=lambda: [0] * BINS)
    sweetest: Sweetest | None = None
    sweeteners: frozenset[str] = field(init=False)

    def __post_init__(self) -> None:
        steps = [step for step in self.book.drinks[self.drink].steps if step.role == "sweetener"]
        self.sweeteners = frozenset(
            each
            for step in steps
            if step.ingredient is not None
            for each in (step.ingredient, *step.instead.values())
        )

    def add(self, line: Line, hand: ByHand, off: Off) -> None:
        """One build of a line: what it asks of hands, and how far its parts are off."""
        self.built += 1
        self.seconds += hand.seconds
        if hand.fussy:
            self._add_fussy(line, hand.fussy)
        for place in off.bins:
            self.parts[place] += 1
        for short, steps in off.sweeteners:
            if self.sweetest is None or steps > self.sweetest.steps:
                self.sweetest = Sweetest(short, steps, _called(self.book, line))

    def _add_fussy(self, line: Line, fussy: tuple[Fussy, ...]) -> None:
        self.fussy += 1
        for kind in dict.fromkeys(one.kind for one in fussy):
            known = self.fuss.get(kind)
            if known is not None:
                self.fuss[kind] = replace(known, count=known.count + 1)
                continue
            what = next(one.what for one in fussy if one.kind == kind)
            self.fuss[kind] = Fussiness(kind, 1, what, _called(self.book, line))

    def off(self, build: Build) -> Off:
        """How far the parts of a build are off: the same for all that are one drink under other toppings."""
        bins, sweeteners = [], []
        for error in build.errors:
            if error.ingredient in self.sweeteners:
                steps = self._steps_off(build, error.ingredient, abs(error.given_g - error.wanted_g))
                sweeteners.append((self.book.pantry[error.ingredient].short, steps))
            else:
                bins.append(bin_of(error.error_pct))
        return Off(tuple(bins), tuple(sweeteners))

    def _steps_off(self, build: Build, ingredient: str, off_g: float) -> float:
        used = [s.amount.tool for s in build.steps if s.ingredient == ingredient and s.amount is not None]
        if not used:
            recipe = self.book.drinks[self.drink].steps
            used = [m.tool for s in recipe if s.role == "sweetener" for m in s.by_size.values()]
        step_ml = min(self.book.tools[tool].step_ml for tool in used)
        return round(off_g / self.book.pantry[ingredient].density / step_ml, 3)

    def proof(self) -> HandProof:
        """What it came to."""
        return _finished(
            self.built, self.fussy, self.seconds, self.fuss.values(), tuple(self.parts), self.sweetest
        )


def bin_of(error_pct: float) -> int:
    """The bin of an error in per cent, whatever its sign."""
    return min(BINS - 1, int(abs(error_pct) / BIN_PCT + 0.5))


def percentile(parts: Sequence[int], share: float) -> float:
    """The error in per cent that this share of the parts keeps within, by nearest rank, to half a bin; 0
    where there are none."""
    rank, seen = share * sum(parts) - 1e-9, 0
    for place, count in enumerate(parts):
        seen += count
        if seen >= rank and seen:
            return place * BIN_PCT
    return 0.0


def merged_hands(parts: Sequence[HandProof]) -> HandProof:
    """What the parts came to together: of a drink, or of a whole book."""
    sweetest = [each.sweetest for each in parts if each.sweetest is not None]
    fuss: dict[Fuss, Fussiness] = {}
    for each in (each for part in parts for each in part.fuss):
        known = fuss.get(each.kind)
        fuss[each.kind] = each if known is None else replace(known, count=known.count + each.count)
    return _finished(
        sum(part.built for part in parts),
        sum(part.fussy for part in parts),
        sum(part.seconds * part.built for part in parts),
        fuss.values(),
        tuple(sum(bins) for bins in zip(*(part.parts for part in parts), strict=True)) or (0,) * BINS,
        max(sweetest, key=lambda each: each.steps, default=None),
    )


def _finished(
    built: int,
    fussy: int,
    seconds: float,
    fuss: Iterable[Fussiness],
    parts: tuple[int, ...],
    sweetest: Sweetest | None,
) -> HandProof:
    return HandProof(
        built=built,
        fussy=fussy,
        seconds=round(seconds / built, 4) if built else 0.0,
        fuss=tuple(sorted(fuss, key=lambda each: -each.count)),
        parts=parts,
        median_pct=percentile(parts, 0.5),
        p95_pct=percentile(parts, 0.95),
        sweetest=sweetest,
    )


def _called(book: Book, line: Line) -> str:
    return ", ".join((words.title(book, line), *words.words(book, line)))
