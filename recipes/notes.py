"""What the bar may want to know about a build: what is off, a smaller drink, sugar that stays, a warm one."""

from __future__ import annotations

from collections.abc import Iterator

from recipes.book import Book
from recipes.garnish import Garnish
from recipes.kitchen import Made
from recipes.measures import figure
from recipes.model import Balance

COLD_C = 15.0
"""An iced drink that comes out warmer than this says so."""

LOWER_ML = 15.0
"""A drink that stands this much lower than the regular one says so."""


def notes(book: Book, made: Made, toppings: Garnish, come_to: Balance) -> Iterator[str]:
    """Every note on a build, the weightiest first."""
    if made.aim.share < 0.995:
        room = toppings.load.body_ml
        why = f"toppings take {room:.0f} ml" if room else "the extras need room"
        yield f"Made at {made.aim.share:.0%} of its size, at the same strength: {why}"
    yield from _off(book, made)
    yield from _sugar_that_stays(made, toppings, come_to)
    if made.cubes_less:
        cubes = "1 cube" if made.cubes_less == 1 else f"{figure(made.cubes_less)} cubes"
        yield f"{cubes} less ice, to stay under the seal line"
    if made.aim.short_ml > LOWER_ML:
        yield f"Stands {made.aim.short_ml:.0f} ml lower than with regular ice{_at_strength(made)}"
    if not made.plan.hot and come_to.temperature_c > COLD_C:
        yield f"Not cold: about {come_to.temperature_c:.0f} °C, there is too little ice to chill it"


def _at_strength(made: Made) -> str:
    return ", at the same strength" if made.plan.top_up is not None else ", and is stronger"


def _off(book: Book, made: Made) -> Iterator[str]:
    """Components that the tools cannot measure within the book's tolerance."""
    if made.worst_pct <= book.tolerance_pct:
        return
    tools = {part.ingredient.id: part.tools[-1].name for part, _ in made.doses}
    if made.top_up is not None:
        tools.setdefault(made.top_up[0].ingredient.id, made.top_up[0].tool.name)
    for error in made.errors:
        if abs(error.error_pct) <= book.tolerance_pct:
            return
        more = "more" if error.error_pct > 0 else "less"
        near = f", as near as the {tools[error.ingredient]} measures" if error.ingredient in tools else ""
        name = book.pantry[error.ingredient].name
        yield f"{name}: {abs(error.error_pct):.0f} % {more} than the recipe{near}"


def _sugar_that_stays(made: Made, toppings: Garnish, come_to: Balance) -> Iterator[str]:
    """The sugar level is about sweetener only: what the rest brings is said when less was asked for."""
    rest = come_to.sugars_g - come_to.added_sugars_g
    if made.plan.line.sugar >= 100 or rest < 1:
        return
    grams: dict[str, float] = {}
    for name, sugar in (*made.sugars, *toppings.sugars):
        grams[name] = grams.get(name, 0.0) + sugar
    names = [name for name, sugar in sorted(grams.items(), key=lambda pair: -pair[1]) if sugar >= 0.5]
    source = ", ".join(names[:3]) or "the ingredients"
    yield f"{rest:.0f} g sugars come with {source}, whatever the sugar level"
