"""What the bar may want to know about a build: what is off, a smaller drink, sugar that stays, a warm one."""

from __future__ import annotations

from collections.abc import Iterator

from recipes.book import Book
from recipes.building.drink import Made
from recipes.building.plan import Part
from recipes.building.toppings import Toppings
from recipes.measures import figure
from recipes.model import Balance, ComponentError, Note

COLD_C = 15.0
"""An iced drink that comes out warmer than this says so."""

ROUNDED_ML = 0.001
"""Grams are told to four decimals."""

LEAST_ICE_G = 5.0
"""Less ice than this in the cup, a quarter of a cube, is none."""

LOWER_ML = 15.0
"""A drink that stands this much lower than the regular one says so."""


def notes(book: Book, made: Made, toppings: Toppings, come_to: Balance) -> Iterator[Note]:
    """Every note on a build, the weightiest first."""
    if made.target.of_recipe < 0.995:
        room = toppings.load.body_ml
        why = f"toppings take {room:.0f} ml" if room else "the extras need room"
        strength = "" if made.worst is not None and made.worst.is_told else ", at the same strength"
        per_cent = 100 * made.target.of_recipe
        yield Note("smaller", f"Made at {per_cent:.0f} % of its size{strength}: {why}", "", (per_cent, room))
    yield from _off(book, made)
    yield from _sugar_that_stays(made, toppings, come_to)
    if made.ice_less is not None:
        less = f"{figure(made.ice_less.count)} {made.ice_less.unit}"
        words = f"{less} less ice, to stay under the seal line"
        yield Note("less ice", words, made.ice_less.tool, (made.ice_less.count,))
    if come_to.ice_g > 0 and come_to.ice_left_g < LEAST_ICE_G:
        yield Note("no ice left", "No ice is left in the cup: all of it melts while the drink is made")
    if made.target.short_ml > LOWER_ML and not made.plan.hot:
        lower = made.target.short_ml
        words = f"Stands {lower:.0f} ml lower than with regular ice{_at_strength(made)}"
        yield Note("stands lower", words, "", (lower,))
    if not made.plan.hot and come_to.temperature_c > COLD_C:
        warm = come_to.temperature_c
        words = f"Not cold: about {warm:.0f} °C, there is too little ice to chill it"
        yield Note("not cold", words, "", (warm,))


def _at_strength(made: Made) -> str:
    return ", at the same strength" if made.plan.top_up is not None else ", and is stronger"


def _off(book: Book, made: Made) -> Iterator[Note]:
    """Components that the tools cannot measure within the book's tolerance."""
    parts = {part.ingredient.id: part for part, _ in made.doses}
    if made.top_up is not None:
        parts.setdefault(made.top_up[0].ingredient.id, made.top_up[0])
    for error in made.errors:
        if not error.is_told:
            continue
        more = "more" if error.error_pct > 0 else "less"
        name = book.pantry[error.ingredient].name
        why = _why(made, parts[error.ingredient], error) if error.ingredient in parts else ""
        words = f"{name}: {abs(error.error_pct):.0f} % {more} than the recipe{why}"
        yield Note("off the recipe", words, error.ingredient, (error.error_pct,))


def _why(made: Made, part: Part, error: ComponentError) -> str:
    """The tool's step where that is the cause, else the room, where the drink had to shrink for it."""
    tool = (
        part.jug
        if part.jug is not None and error.given_g > part.ingredient.density * (part.tool.reads_ml or 0)
        else part.tool
    )
    off_ml = abs(error.given_g - error.wanted_g) / part.ingredient.density
    if off_ml <= tool.step_ml / 2 + ROUNDED_ML:
        return f", as near as the {tool.name} measures"
    return ", to stay under the seal line" if made.target.of_recipe < 1 else ""


def _sugar_that_stays(made: Made, toppings: Toppings, come_to: Balance) -> Iterator[Note]:
    """The sugar level is about sweetener only: what the rest brings is said when less was asked for."""
    rest = come_to.sugars_g - come_to.added_sugars_g
    if made.plan.line.sugar >= 100 or rest < 1:
        return
    grams: dict[str, float] = {}
    for name, sugar in (*made.sugars, *toppings.sugars):
        grams[name] = grams.get(name, 0.0) + sugar
    names = [name for name, sugar in sorted(grams.items(), key=lambda pair: -pair[1]) if sugar >= 0.5]
    source = ", ".join(names[:3]) or "the ingredients"
    words = f"{rest:.0f} g sugars come with {source}, whatever the sugar level"
    yield Note("sugar that stays", words, "", (rest,))
