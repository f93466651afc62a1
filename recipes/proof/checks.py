"""What every build must stand up to, looked at alone and beside its neighbours."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import NamedTuple

from recipes.book import Book
from recipes.building.drink import ROOM_STEP_ML, SIP_ML
from recipes.building.resolve import Levels, Resolved
from recipes.model import Build, ComponentError, Fill, Step
from recipes.proof.model import CaseError, Kind

FULL_SLACK_ML = 0.01
"""How far past a line is still rounding of the figures, ml."""

SWEET_SLACK_BX = 0.15
"""How much less sweet a drink may be at more sugar, °Bx, beside half a step of the sweetener's tool, which
is what that can tell apart: rounding of the other amounts; a house choice."""

WARM_SLACK_C = 0.25
"""How much warmer a drink may be with more ice, °C: the rounding of the other amounts; a house choice."""

SHOT_SLACK_ML = SIP_ML + ROOM_STEP_ML + 2.0
"""How much lower a cup may stand with more shots, ml: the sip of water that is not worth pouring, a step of
the room that toppings leave, and what those warm."""

CAFFEINE_SLACK_MG = 1.0
"""How much less caffeine there may be with one more shot, mg: a teaspoon of tea; a house choice."""


@dataclass(frozen=True, slots=True)
class Breach:
    """One way in which one build breaks the proof."""

    kind: Kind
    what: str
    message: str


class Measure(NamedTuple):
    """What neighbours are compared by: added sweetness °Bx and half a step of its tool in °Bx, temperature
    °C, caffeine mg, the ice put in, g, and how high the cup stands, ml."""

    brix: float
    half_step_bx: float
    temperature_c: float
    caffeine_mg: float
    ice_g: float
    filled_ml: float


def measure_of(found: Resolved, step_g: float) -> Measure:
    """What a resolved line is compared by; ``step_g`` is the ``sweet_step_g`` of its drink."""
    sums, settled = found.made.sums, found.settled
    per = 100 / liquid_g if (liquid_g := sums.liquid_g + settled.melted_g) > 0 else 0.0
    return Measure(
        sums.added_g * per,
        step_g / 2 * per,
        settled.temperature_c,
        sums.caffeine_mg + found.toppings.sums.caffeine_mg,
        sums.ice_g,
        settled.filled_ml,
    )


def sweet_step_g(book: Book, drink: str) -> float:
    """Grams of sugar in one step of what sweetens a drink; of the coarsest where several do."""
    return max(
        (
            book.tools[amount.tool].step_ml
            * book.pantry[step.ingredient].density
            * book.pantry[step.ingredient].sugars
            for step in book.drinks[drink].steps
            if step.role == "sweetener" and step.ingredient is not None
            for amount in step.by_size.values()
        ),
        default=0.0,
    )


def errors_of(build: Build) -> list[CaseError]:
    """How far each component is off, the furthest first."""
    return [CaseError(each.ingredient, each.label, each.error_pct) for each in build.errors if each.error_pct]


def breaches(book: Book, build: Build) -> Iterator[Breach]:
    """Everything wrong with a build by itself: too full, not measurable, off without a word."""
    yield from too_full(build.fill)
    yield from unmeasurable(book, build.steps)
    yield from untold(build)


def too_full(fill: Fill | Levels) -> Iterator[Breach]:
    """Past the seal line of the cup, or past what the mixing vessel takes."""
    if fill.filled_ml > fill.line_ml + FULL_SLACK_ML:
        over = f"{fill.filled_ml:.1f} ml stand over the seal line at {fill.line_ml:g} ml"
        yield Breach("overfull", "cup", over)
    if fill.vessel_ml > fill.vessel_limit_ml + FULL_SLACK_ML:
        over = f"{fill.vessel_ml:.1f} ml go into the {fill.vessel}, which takes {fill.vessel_limit_ml:g} ml"
        yield Breach("overfull", fill.vessel, over)


def unmeasurable(book: Book, steps: Iterable[Step]) -> Iterator[Breach]:
    """Steps whose amount is no whole number of what their tool measures."""
    for step in steps:
        amount = step.amount
        if amount is None:
            continue
        smallest = book.tools[amount.tool].least
        times = amount.count / smallest
        if not (math.isfinite(times) and times > 0.5 and abs(times - math.floor(times + 0.5)) < 1e-6):
            name = book.tools[amount.tool].name
            odd = f"{amount.count:g} {amount.unit} of {step.short}: the {name} measures steps of {smallest:g}"
            yield Breach("not measurable", step.ingredient or step.action, odd)


def untold(build: Build) -> Iterator[Breach]:
    """Components that are off past their tolerance without a note that says so."""
    for error in build.errors:
        if error.is_told and not is_flagged(build, error):
            more = "more" if error.error_pct > 0 else "less"
            off = f"{abs(error.error_pct):.0f} % {more} {error.label} than the recipe wants"
            yield Breach("out of tolerance", error.ingredient, f"{off}, and no note says so")


def is_flagged(build: Build, error: ComponentError) -> bool:
    """Whether a note of the build tells of the component that is off."""
    return any(note.code == "off the recipe" and note.thing == error.ingredient for note in build.notes)


def less_sweet(less: Measure, more: Measure) -> str | None:
    """In words, when the drink with more sugar is less sweet."""
    if more.brix >= less.brix - max(less.half_step_bx, more.half_step_bx) - SWEET_SLACK_BX:
        return None
    return f"{more.brix:.1f} °Bx with more sugar, {less.brix:.1f} °Bx with less"


def warmer(less: Measure, more: Measure) -> str | None:
    """In words, when the drink with more ice is warmer.

    Where the cup has no room for a cube more (a note says so), a level up has the same ice: that is a cause.
    """
    if 0 < more.ice_g <= less.ice_g or more.temperature_c <= less.temperature_c + WARM_SLACK_C:
        return None
    return f"{more.temperature_c:.1f} °C with more ice, {less.temperature_c:.1f} °C with less"


def weaker(less: Measure, more: Measure) -> str | None:
    """In words, when the drink with more shots has less caffeine."""
    if more.caffeine_mg >= less.caffeine_mg - CAFFEINE_SLACK_MG:
        return None
    return f"{more.caffeine_mg:.0f} mg caffeine with more shots, {less.caffeine_mg:.0f} mg with fewer"


def smaller(less: Measure, more: Measure) -> str | None:
    """In words, when the drink with more shots is less of a drink."""
    if more.filled_ml >= less.filled_ml - SHOT_SLACK_ML:
        return None
    return f"{more.filled_ml:.0f} ml in the cup with more shots, {less.filled_ml:.0f} ml with fewer"


def weaker_or_smaller(less: Measure, more: Measure) -> str | None:
    """In words, when the drink with more shots has less caffeine, or is less of a drink."""
    return weaker(less, more) or smaller(less, more)
