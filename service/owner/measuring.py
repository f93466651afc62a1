"""From weighings and labels to edits of the book: what a scoop weighs, what a stroke holds, a new brand."""

from __future__ import annotations

from recipes.book import Book, Ingredient, Tool
from recipes.weighing import Weighing, weigh
from service.wire_owner import BrandIn, BrandLabel, Edit, Weighed, WeighIn

KCAL_IN_KJ = 4.184
"""Thermochemical kilocalorie, kJ (exact)."""

KINDS = {"scoop": "scoop", "stroke": "pump", "shot": "shot", "cube": "cube", "ladle": "ladle"}
"""What is weighed, and the kind of tool that measures it."""

BY_DENSITY = ("scoop", "ladle")
"""Measures whose room is known, so that their weight tells the density; of the others the room is sought."""


class CannotMeasure(ValueError):
    """Raised when a weighing does not fit the book: the field, what it held and what is accepted."""

    def __init__(self, field: str, value: str, accepted: str) -> None:
        super().__init__(f"{field} is {value!r}; accepted: {accepted}")
        self.field, self.value, self.accepted = field, value, accepted


def weighed(book: Book, asked: WeighIn) -> Weighed:
    """What readings come to, and the edits that take them over. Raises CannotMeasure."""
    weighing = _weighing(asked.readings_g)
    if asked.tool is None or asked.ingredient is None:
        return Weighed(
            weighing=weighing, finding=f"One {asked.what} weighs {weighing.mean_g:.1f} g.", edits=[]
        )
    tool, ingredient = _tool(book, asked.tool), _ingredient(book, asked.ingredient)
    if tool.kind != KINDS[asked.what]:
        fits = [each.id for each in book.tools.values() if each.kind == KINDS[asked.what]]
        raise CannotMeasure("tool", tool.id, f"a {KINDS[asked.what]}: {', '.join(fits)}")
    if asked.what in BY_DENSITY:
        density = weighing.mean_g / tool.unit_ml
        finding = (
            f"One {tool.one} of {ingredient.name} weighs {weighing.mean_g:.1f} g: {density:.3g} g/ml, "
            f"until now {ingredient.density:.3g} g/ml."
        )
        return Weighed(weighing=weighing, finding=finding, edits=_density(ingredient, density))
    holds = weighing.mean_g / ingredient.density
    finding = (
        f"One {tool.one} of {ingredient.name} weighs {weighing.mean_g:.1f} g: it holds {holds:.3g} ml, "
        f"until now {tool.unit_ml:.3g} ml."
    )
    edit = Edit(file="shop.toml", path=["tools", tool.id, "holds"], value=f"{_figure(holds)} ml")
    return Weighed(weighing=weighing, finding=finding, edits=[edit])


def brand(book: Book, asked: BrandIn) -> tuple[Weighing | None, float, list[Edit]]:
    """The weighing, the new density and the edits of a change of brand. Raises CannotMeasure."""
    ingredient = _ingredient(book, asked.ingredient)
    weighing = _weighing(asked.readings_g) if asked.readings_g else None
    unit_g = weighing.mean_g if weighing is not None else asked.unit_g
    density, edits = ingredient.density, []
    if unit_g is not None:
        if asked.tool is None:
            raise CannotMeasure("tool", "nothing", "the tool that was weighed")
        density = unit_g / _tool(book, asked.tool).unit_ml
        edits = _density(ingredient, density)
    if asked.keep_mass:
        edits += _in_grams(book, ingredient)
    return weighing, density, [*edits, *_label(ingredient, asked.label)]


def _in_grams(book: Book, ingredient: Ingredient) -> list[Edit]:
    """The recipes' amounts of an ingredient as the grams they are now, measured with the same tool."""
    edits = []
    for drink in book.drinks.values():
        for place, step in enumerate(drink.steps):
            if step.ingredient == ingredient.id and step.amount is not None:
                file = f"drinks/{drink.id}.toml"
                grams = f"{_figure(step.amount.ml * ingredient.density)} g"
                edits.append(Edit(file=file, path=["steps", place, "amount"], value=grams))
                edits.append(Edit(file=file, path=["steps", place, "tool"], value=step.amount.tool))
    return edits


def _label(ingredient: Ingredient, label: BrandLabel) -> list[Edit]:
    shares = {
        "sugars": label.sugars_g,
        "dry": label.dry_g,
        "fat": label.fat_g,
        "carbohydrate": label.carbohydrate_g,
        "protein": label.protein_g,
        "fibre": label.fibre_g,
    }
    values: dict[str, str | list[str]] = {} if label.brand is None else {"brand": label.brand}
    values |= {key: f"{_figure(share)} %" for key, share in shares.items() if share is not None}
    if label.caffeine_mg_per_g is not None:
        values["caffeine"] = f"{_figure(label.caffeine_mg_per_g)} mg/g"
    energy = _energy(label)
    if energy is not None:
        values["energy"] = energy
    if label.allergens is not None:
        values["allergens"] = label.allergens
    if label.price is not None:
        values["price"] = label.price
    return [Edit(file="pantry.toml", path=[ingredient.id, key], value=value) for key, value in values.items()]


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


def _density(ingredient: Ingredient, density: float) -> list[Edit]:
    return [Edit(file="pantry.toml", path=[ingredient.id, "density"], value=f"{_figure(density)} g/ml")]


def _figure(number: float) -> str:
    """Four significant digits without an exponent: more than any scale at a bar can tell."""
    digits = f"{number:.4g}"
    return f"{float(digits):.6f}".rstrip("0").rstrip(".") if "e" in digits else digits


def _weighing(readings: list[float]) -> Weighing:
    try:
        return weigh(readings)
    except ValueError as problem:
        raise CannotMeasure("readings_g", str(len(readings)), str(problem)) from None


def _tool(book: Book, id: str) -> Tool:
    if id not in book.tools:
        raise CannotMeasure("tool", id, ", ".join(book.tools))
    return book.tools[id]


def _ingredient(book: Book, id: str) -> Ingredient:
    if id not in book.pantry:
        raise CannotMeasure("ingredient", id, ", ".join(book.pantry))
    return book.pantry[id]
