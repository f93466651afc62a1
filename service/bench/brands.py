"""A change of brand as edits of the book: the new package's density, what its label says, its energy."""

from __future__ import annotations

import tomllib

from recipes.book import Book, Ingredient
from recipes.weighing import Weighing
from service.bench.measuring import CannotMeasure, density_edit, figure_words, ingredient_of, judged, tool_of
from service.bench.wire import BrandIn, BrandLabel, Edit

KCAL_IN_KJ = 4.184
"""Thermochemical kilocalorie, kJ (exact)."""

PANTRY = "pantry.toml"


def brand(book: Book, asked: BrandIn) -> tuple[Weighing | None, float, list[Edit]]:
    """The weighing, the new density and the edits of a change of brand. Raises CannotMeasure."""
    ingredient = ingredient_of(book, asked.ingredient)
    weighing = judged(asked.readings_g) if asked.readings_g else None
    unit_g = weighing.mean if weighing is not None else asked.unit_g
    density, edits = ingredient.density, []
    if unit_g is not None:
        if asked.tool is None:
            raise CannotMeasure("tool", "nothing", "the tool that was weighed")
        density = unit_g / tool_of(book, asked.tool).unit_ml
        edits = density_edit(ingredient, density)
    if asked.keep_mass:
        edits += _in_grams(book, ingredient)
    return weighing, density, [*edits, *_label(book, ingredient, asked.label)]


def energy_words(after: Book, ingredient: str, label: BrandLabel) -> str:
    """Where the energy of the new brand comes from, with its figures in 100 g."""
    found = after.pantry[ingredient]
    figures = f"{found.energy_kj:.0f} kJ/{found.energy_kcal:.0f} kcal in 100 g"
    if _energy(label) is not None:
        return f"Energy: {figures}, as the new label has it."
    if "energy" in _written(after, ingredient):
        return f"Energy: {figures}, as it stood: the new label's was not given."
    return f"Energy: {figures}, from its components by the {after.factors} factors."


def _in_grams(book: Book, ingredient: Ingredient) -> list[Edit]:
    """The recipes' amounts of an ingredient as the grams they are now, measured with the same tool."""
    edits = []
    for drink in book.drinks.values():
        for place, step in enumerate(drink.steps):
            if step.ingredient != ingredient.id:
                continue
            file = f"drinks/{drink.id}.toml"
            cells = {
                (key, size): amount
                for key, written in (("amount", step.by_size), ("hot", step.hot))
                for size, amount in written.items()
            }
            tools = {amount.tool for amount in cells.values()}
            if len(tools) != 1:
                continue  # grams of several tools cannot be told apart: they stay as they are written
            for (key, size), amount in cells.items():
                grams = f"{figure_words(amount.ml * ingredient.density)} g"
                edits.append(Edit(file=file, path=["steps", place, key, size], value=grams))
            edits.append(Edit(file=file, path=["steps", place, "tool"], value=tools.pop()))
    return edits


def _label(book: Book, ingredient: Ingredient, label: BrandLabel) -> list[Edit]:
    components = {
        "fat": label.fat_g,
        "carbohydrate": label.carbohydrate_g,
        "protein": label.protein_g,
        "fibre": label.fibre_g,
    }
    shares = {"sugars": label.sugars_g, "dry": label.dry_g, **components}
    values: dict[str, str | list[str] | None] = {} if label.brand is None else {"brand": label.brand}
    values |= {key: f"{figure_words(share)} %" for key, share in shares.items() if share is not None}
    if label.caffeine_mg_per_g is not None:
        values["caffeine"] = f"{figure_words(label.caffeine_mg_per_g)} mg/g"
    energy = _energy(label)
    if energy is not None:
        values["energy"] = energy
    elif any(share is not None for share in components.values()):
        # The old label's energy must not outlive it: without a new figure it follows from the components.
        left = [getattr(ingredient, key) if share is None else share for key, share in components.items()]
        if not any(left):
            values["energy"] = "0 kJ/0 kcal"
        elif "energy" in _written(book, ingredient.id):
            values["energy"] = None
    if label.allergens is not None:
        values["allergens"] = label.allergens
    if label.price is not None:
        values["price"] = label.price
    return [Edit(file=PANTRY, path=[ingredient.id, key], value=value) for key, value in values.items()]


def _written(book: Book, ingredient: str) -> dict[str, object]:
    """What the pantry's file says of an ingredient, as it is written there."""
    found = tomllib.loads(book.files[PANTRY])[ingredient]
    assert isinstance(found, dict)
    return found


def _energy(label: BrandLabel) -> str | None:
    """Both figures of a label's energy; one that is left out is worked out from the other."""
    kilojoules, kilocalories = label.energy_kj, label.energy_kcal
    if kilojoules is None and kilocalories is None:
        return None
    kilojoules = kilocalories * KCAL_IN_KJ if kilojoules is None and kilocalories is not None else kilojoules
    kilocalories = (
        kilojoules / KCAL_IN_KJ if kilocalories is None and kilojoules is not None else kilocalories
    )
    return f"{kilojoules:.0f} kJ/{kilocalories:.0f} kcal"
