"""From a line to its exact build: plan, target, search, balance, steps, and what to say about it.

plan.plan -> target.target_of -> search.search -> drink.Made -> here, with the toppings
"""

from __future__ import annotations

import hashlib

from recipes.allergens import ORDER
from recipes.asking.lines import complete
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


def resolve(book: Book, line: Line, ways_out: bool = True) -> Build:
    """The build of ``line``. Raises ``Refusal`` in plain words for what cannot be made; without ``ways_out``
    it says what is at fault, but not what would do instead, which takes as long as several drinks.

    Pure and deterministic: the same book version and line give the same build, to the last digit.
    """
    line, made_in, toppings = _prepared(book, line)
    try:
        made = made_in.made(toppings.load.body_ml)
    except Unsettled as stuck:
        raise unsettled(book, line, stuck.part) from None
    if made is None:
        raise too_full(book, line, ways_out)
    if is_too_far(book, made):
        raise too_coarse(book, line, made, ways_out)
    return _build(book, line, made_in, made, toppings)


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


def _build(book: Book, line: Line, made_in: PlannedDrink, made: Made, toppings: Toppings) -> Build:
    settled = made.mixed
    if toppings.portions:
        settled = settle(made.load.plus(toppings.load), made.plan.melt_share)
    come_to = balance(made.sums, toppings.sums, settled, made_in.net_price(toppings.price))
    allergens = _allergens(made, toppings)
    return Build(
        id=build_id(made_in.address, toppings.address),
        book=book.version,
        line=line,
        title=made_in.title,
        words=(*made_in.words_before, *toppings.words, *made_in.words_after),
        steps=steps(book, made, toppings, settled.temperature_c),
        fill=_fill(book, made, toppings, settled),
        balance=come_to,
        allergens=allergens,
        cautions=tuple(cautions.cautions(book, made.plan.drink.name, come_to, toppings.cautions, allergens)),
        notes=tuple(notes(book, made, toppings, come_to)),
        uses=_uses(made, toppings),
        errors=made.errors,
        score=made.score,
        energy_words=energy_words(book.factors, come_to.energy_kj, come_to.energy_kcal),
    )


def _fill(book: Book, made: Made, toppings: Toppings, settled: Settled) -> Fill:
    """The cup from the bottom up, and the mixing vessel at its fullest."""
    size = book.sizes[made.plan.line.size]
    layers = list(toppings.layers)
    for what, label, volume in (
        ("liquid", made.plan.drink.name, settled.liquid_ml),
        ("ice", "ice", settled.ice_ml),
        ("foam", "crema", settled.foam_ml),
    ):
        if volume > 0:
            layers.append(Layer(what, label, rounded(volume)))
    vessel = book.vessels[made.plan.drink.vessel] if made.plan.drink.vessel is not None else None
    filled = settled.filled_ml
    return Fill(
        layers=tuple(layers),
        filled_ml=rounded(filled),
        line_ml=size.line_ml,
        brim_ml=size.brim_ml,
        head_ml=rounded(size.line_ml - filled),
        vessel="cup" if vessel is None else vessel.id,
        vessel_ml=rounded(filled if vessel is None else made.unmelted_ml),
        vessel_limit_ml=size.line_ml if vessel is None else vessel.limit_ml,
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
