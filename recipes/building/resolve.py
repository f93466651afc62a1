"""From a line to its exact build: plan, target, search, balance, steps, and what to say about it.

plan.plan -> target.target_of -> search.search -> drink.Made -> here, with the toppings
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from typing import NamedTuple

from recipes.allergens import ORDER
from recipes.asking.lines import complete
from recipes.asking.price import net
from recipes.balance.labels import energy_words
from recipes.balance.load import Settled, settle
from recipes.balance.outcome import balance, rounded
from recipes.book import Book
from recipes.building.drink import Made, PlannedDrink, planned
from recipes.building.notes import notes
from recipes.building.refuse import is_too_far, too_coarse, too_full, unsettled
from recipes.building.search import Unsettled
from recipes.building.steps import steps
from recipes.building.toppings import Toppings, toppings_key, toppings_of
from recipes.model import Build, Fill, Layer, Line
from recipes.telling import cautions


class Levels(NamedTuple):
    """How high a drink stands in its cup and in what it is mixed in, against what those take, ml."""

    filled_ml: float
    line_ml: float
    vessel: str
    vessel_ml: float
    vessel_limit_ml: float


@dataclass(frozen=True, slots=True, eq=False)
class Resolved:
    """A line resolved, before it is put into words: what is planned and made, which hundreds of lines share,
    and where it settles with its toppings."""

    line: Line
    planned: PlannedDrink
    made: Made
    toppings: Toppings
    settled: Settled
    levels: Levels


def resolve(book: Book, line: Line, ways_out: bool = True) -> Build:
    """The build of ``line``. Raises ``Refusal`` in plain words for what cannot be made; without ``ways_out``
    it says what is at fault, but not what would do instead, which takes as long as several drinks.

    Pure and deterministic: the same book version and line give the same build, to the last digit.
    """
    return in_words(book, resolved(book, line, ways_out))


def resolved(book: Book, line: Line, ways_out: bool = True) -> Resolved:
    """As ``resolve``, but the figures only: what a proof, which asks for all lines, looks at first."""
    line, made_in, toppings = _prepared(book, line)
    try:
        made = made_in.made(toppings.load.body_ml)
    except Unsettled as stuck:
        raise unsettled(book, line, stuck.part) from None
    if made is None:
        raise too_full(book, line, ways_out)
    if is_too_far(book, made):
        raise too_coarse(book, line, made, ways_out)
    settled = made.mixed
    if toppings.portions:
        settled = settle(made.load.plus(toppings.load), made.plan.melt_share)
    return Resolved(line, made_in, made, toppings, settled, _levels(book, made, settled))


def in_words(book: Book, found: Resolved) -> Build:
    """The whole build of what was resolved: its steps, and what to say about it."""
    made, toppings = found.made, found.toppings
    net_price = net(book, found.planned.price + toppings.price)
    come_to = balance(made.sums, toppings.sums, found.settled, net_price)
    allergens = _allergens(made, toppings)
    return Build(
        id=build_id(found.planned.address, toppings.address),
        book=book.version,
        line=found.line,
        title=found.planned.title,
        words=(*found.planned.words_before, *toppings.words, *found.planned.words_after),
        steps=steps(book, made, toppings, found.settled.temperature_c),
        fill=_fill(book, found),
        balance=come_to,
        allergens=allergens,
        cautions=tuple(cautions.cautions(book, made.plan.drink.name, come_to, toppings.cautions, allergens)),
        notes=tuple(notes(book, made, toppings, come_to)),
        uses=_uses(made, toppings),
        errors=made.errors,
        score=made.score,
        energy_words=energy_words(book.factors, come_to.energy_kj, come_to.energy_kcal),
    )


def build_id(address: str, toppings: str) -> str:
    """The content address of a build: 16 hex digits of SHA-256 over book version, line and toppings."""
    return hashlib.sha256(f"{address} {toppings}".encode()).hexdigest()[:16]


def _prepared(book: Book, line: Line) -> tuple[Line, PlannedDrink, Toppings]:
    """The line made canonical, what is planned for it, its toppings; only canonical lines are remembered."""
    key = (line.drink, line.size, line.sugar, line.ice, line.shots, line.milk, line.without)
    known, toppings = book.memory.plans.get(key), book.memory.toppings.get(toppings_key(line))
    if known is not None and toppings is not None:
        return line, known, toppings
    line = complete(
        book, line.drink, line.size, line.sugar, line.ice, line.shots, line.toppings, line.milk, line.without
    )
    return line, planned(book, line), toppings_of(book, line)


def _levels(book: Book, made: Made, settled: Settled) -> Levels:
    line_ml, filled = book.sizes[made.plan.line.size].line_ml, settled.filled_ml
    if made.plan.drink.vessel is None:
        return Levels(filled, line_ml, "cup", filled, line_ml)
    vessel = book.vessels[made.plan.drink.vessel]
    return Levels(filled, line_ml, vessel.id, made.unmelted_ml, vessel.limit_ml)


def _fill(book: Book, found: Resolved) -> Fill:
    """The cup from the bottom up, and the mixing vessel at its fullest."""
    settled, levels = found.settled, found.levels
    layers = list(found.toppings.layers)
    for what, label, volume in (
        ("liquid", found.made.plan.drink.name, settled.liquid_ml),
        ("ice", "ice", settled.ice_ml),
        ("foam", "crema", settled.foam_ml),
    ):
        if volume > 0:
            layers.append(Layer(what, label, rounded(volume)))
    return Fill(
        layers=tuple(layers),
        filled_ml=rounded(levels.filled_ml),
        line_ml=levels.line_ml,
        brim_ml=book.sizes[found.line.size].brim_ml,
        head_ml=rounded(levels.line_ml - levels.filled_ml),
        vessel=levels.vessel,
        vessel_ml=rounded(levels.vessel_ml),
        vessel_limit_ml=levels.vessel_limit_ml,
    )


def _allergens(made: Made, toppings: Toppings) -> tuple[str, ...]:
    found = set(made.allergens)
    for portion in toppings.portions:
        found.update(portion.part.ingredient.allergens)
    return tuple(sorted(found, key=ORDER.__getitem__))


def _uses(made: Made, toppings: Toppings) -> tuple[str, ...]:
    if not toppings.portions:
        return made.uses
    return tuple(sorted({*made.uses, *(portion.part.ingredient.id for portion in toppings.portions)}))
