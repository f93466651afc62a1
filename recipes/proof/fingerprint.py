"""What a drink's proof depends on, as one content address: the same address needs no second proof."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from typing import Any

from recipes.book import RULES, Book, Drink

PROOF_RULES = "4"
"""Raised whenever the proof's own checks change."""

NOT_PROVED = frozenset(
    {"version", "files", "shop", "tax", "families", "drinks", "family", "about", "prices", "price",
     "half_price", "price_per_kg", "brand", "hold_s", "memory", "factors", "floor"}
)  # fmt: skip
"""Fields that no check of the proof looks at: a new price or brand name needs no new proof."""

PICKED = frozenset({"pantry", "toppings", "milks"})
"""Fields of the book of which only what the drink can use counts."""


def fingerprint(book: Book, drink_id: str) -> str:
    """16 hex digits over the drink, the parts of the book that it can use, and the rules."""
    drink = book.drinks[drink_id]
    everywhere = {
        each.name: getattr(book, each.name) for each in fields(book) if each.name not in NOT_PROVED | PICKED
    }
    if drink.shots == 0:
        del everywhere["shot"]
    used = {
        "drink": drink,
        "pantry": {id: book.pantry[id] for id in sorted(ingredients(book, drink))},
        "toppings": {id: topping for id, topping in book.toppings.items() if id in drink.toppings},
        "halved": [id for id in drink.toppings if book.toppings[id].half_price is not None],
        "milks": {id: milk for id, milk in book.milks.items() if id in drink.milks},
        "book": everywhere,
    }
    text = json.dumps([RULES, PROOF_RULES, _plain(used)], ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()[:16]


def ingredients(book: Book, drink: Drink) -> set[str]:
    """Every ingredient that may go into the drink, with any modifiers."""
    found = {step.ingredient for step in drink.steps if step.ingredient is not None}
    for step in drink.steps:
        found |= set(step.instead.values())
    found |= {book.toppings[id].ingredient for id in drink.toppings}
    found |= {book.milks[id].ingredient for id in drink.milks}
    if drink.top_up is not None:
        found |= {id for id in (drink.top_up.cold, drink.top_up.hot) if id is not None}
    if drink.shots:
        found.add(book.shot.ingredient)
    return found


def _plain(value: object) -> Any:  # noqa: ANN401  (JSON)
    """A value as JSON that keeps every difference: mappings with their order, dataclasses by field."""
    if is_dataclass(value):
        return {
            each.name: _plain(getattr(value, each.name))
            for each in fields(value)
            if each.name not in NOT_PROVED
        }
    if isinstance(value, Mapping):
        return [[str(key), _plain(inner)] for key, inner in value.items()]
    if isinstance(value, (tuple, list)):
        return [_plain(inner) for inner in value]
    return value if isinstance(value, (str, int, float, bool)) or value is None else str(value)
