"""From a line to its exact build: target, fit, rounding, balance, steps, and what to say about it."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Sequence

from recipes import balance, cautions, words
from recipes.allergens import ORDER
from recipes.book import Book
from recipes.fit import Made, fit
from recipes.model import Amount, Balance, Build, Fill, Layer, Line
from recipes.modifiers import Part, Target, target
from recipes.notes import notes
from recipes.refuse import too_full
from recipes.steps import steps

Used = Sequence[tuple[Part, Amount]]
"""What went in, with how much of it."""


def resolve(book: Book, line: Line) -> Build:
    """The build of ``line``. Raises ``Refusal`` in plain words for what cannot be made.

    Pure and deterministic: the same book version and line give the same build, to the last digit.
    """
    wanted = target(book, line)
    made = fit(book, wanted)
    if made is None:
        raise too_full(book, wanted)
    used = _used(wanted, made)
    come_to = _balance(made, used)
    allergens = _allergens(used)
    told = [topping.caution for topping, _, _ in wanted.toppings if topping.caution is not None]
    return Build(
        id=build_id(book.version, wanted.line),
        book=book.version,
        line=wanted.line,
        title=words.title(book, wanted.line),
        words=words.words(book, wanted.line),
        steps=steps(book, wanted, made),
        fill=_fill(book, wanted, made),
        balance=come_to,
        allergens=allergens,
        cautions=tuple(cautions.cautions(book, wanted.drink.name, come_to, told, allergens)),
        notes=tuple(notes(book, wanted, made, used, come_to)),
        uses=tuple(sorted({part.ingredient.id for part, _ in used})),
    )


def build_id(version: str, line: Line) -> str:
    """The content address of a build: 16 hex digits of SHA-256 over the book's version and the line."""
    toppings = [[choice.topping, choice.half] for choice in line.toppings]
    whole = [
        version,
        line.drink,
        line.size,
        line.sugar,
        line.ice,
        line.shots,
        toppings,
        line.milk,
        line.without,
    ]
    return hashlib.sha256(json.dumps(whole).encode()).hexdigest()[:16]


def _used(wanted: Target, made: Made) -> Used:
    used = [pair for pair in zip(wanted.parts, made.amounts, strict=True) if pair[1].count > 0]
    return used if made.top_up is None else [*used, made.top_up]


def _balance(made: Made, used: Used) -> Balance:
    """What the drink is. Sugars of toppings count in ``sugars_g`` but not in the liquid's ``brix``."""
    settled = made.settled
    liquid_g = made.load.liquid_g + settled.melted_g
    sugars = sum(amount.mass_g * part.ingredient.sugars for part, amount in used)
    dissolved = sum(
        amount.mass_g * part.ingredient.sugars for part, amount in used if part.ingredient.kind != "topping"
    )
    added = sum(amount.mass_g * part.ingredient.sugars for part, amount in used if part.role == "sweetener")
    return Balance(
        temperature_c=_rounded(settled.temperature_c),
        liquid_g=_rounded(liquid_g),
        liquid_ml=_rounded(settled.liquid_ml),
        melted_g=_rounded(settled.melted_g),
        ice_left_g=_rounded(settled.ice_left_g),
        sugars_g=_rounded(sugars),
        added_sugars_g=_rounded(added),
        brix=_rounded(100 * dissolved / liquid_g) if liquid_g > 0 else 0.0,
        caffeine_mg=_rounded(sum(amount.mass_g * part.ingredient.caffeine for part, amount in used)),
        energy_kj=_rounded(sum(amount.mass_g * part.ingredient.energy_kj / 100 for part, amount in used)),
        energy_kcal=_rounded(sum(amount.mass_g * part.ingredient.energy_kcal / 100 for part, amount in used)),
    )


def _fill(book: Book, wanted: Target, made: Made) -> Fill:
    """The cup from the bottom up, and the mixing vessel at its fullest."""
    settled, size = made.settled, book.sizes[wanted.line.size]
    amounts = dict(zip((id(part) for part in wanted.parts), made.amounts, strict=True))
    layers = [
        Layer(
            "topping", topping.name, balance.load(part.ingredient, amounts[id(part)].volume_ml, 0.0).body_ml
        )
        for topping, part, _ in wanted.toppings
    ]
    layers.append(Layer("liquid", wanted.drink.name, settled.liquid_ml))
    layers.append(Layer("ice", "ice", settled.ice_ml))
    layers.append(Layer("foam", "crema", settled.foam_ml))
    vessel = book.vessels[wanted.drink.vessel] if wanted.drink.vessel is not None else None
    return Fill(
        layers=tuple(
            Layer(layer.what, layer.label, _rounded(layer.volume_ml))
            for layer in layers
            if layer.volume_ml > 0
        ),
        filled_ml=_rounded(settled.filled_ml),
        line_ml=size.line_ml,
        brim_ml=size.brim_ml,
        head_ml=_rounded(size.line_ml - settled.filled_ml),
        vessel="cup" if vessel is None else vessel.id,
        vessel_ml=_rounded(settled.filled_ml if vessel is None else made.load.unmelted_ml),
        vessel_limit_ml=size.line_ml if vessel is None else vessel.limit_ml,
    )


def _allergens(used: Used) -> tuple[str, ...]:
    found = {allergen for part, _ in used for allergen in part.ingredient.allergens}
    return tuple(sorted(found, key=ORDER.__getitem__))


def _rounded(number: float) -> float:
    """Rounded far below what matters, so that the same build prints the same everywhere."""
    return round(number, 4) + 0.0
