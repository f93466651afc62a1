"""What the bar may want to know about a build: roundings, a smaller drink, sugar that stays, a warm one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from recipes.book import Book
from recipes.fit import Made
from recipes.model import Amount, Balance
from recipes.modifiers import Part, Target

COLD_C = 15.0
"""An iced drink that comes out warmer than this says so."""

LOWER_ML = 15.0
"""A drink that stands this much lower than the regular one says so."""


def notes(
    book: Book, target: Target, made: Made, used: Sequence[tuple[Part, Amount]], come_to: Balance
) -> Iterator[str]:
    """Every note on a build, the weightiest first."""
    yield from _smaller(made)
    yield from _roundings(book, target, made)
    yield from _sugar_that_stays(book, target, used, come_to)
    if made.cubes_less:
        cubes = "1 cube" if made.cubes_less == 1 else f"{made.cubes_less} cubes"
        yield f"{cubes} less ice, to stay under the seal line"
    if made.short_ml > LOWER_ML:
        yield f"Stands {made.short_ml:.0f} ml lower than with regular ice, at the same strength"
    if not target.hot and come_to.temperature_c > COLD_C:
        yield f"Not cold: about {come_to.temperature_c:.0f} °C, there is too little ice to chill it"


def _smaller(made: Made) -> Iterator[str]:
    if made.share < 0.995:
        room = made.settled.body_ml
        why = f"toppings take {room:.0f} ml" if room else "the extras need room"
        yield f"Made at {made.share:.0%} of its size, at the same strength: {why}"


def _roundings(book: Book, target: Target, made: Made) -> Iterator[str]:
    """Amounts that the tool cannot measure within the book's tolerance."""
    for part, amount in zip(target.parts, made.amounts, strict=True):
        if abs(amount.error_pct) > book.tolerance_pct and not (
            part.ingredient.kind == "ice" and made.cubes_less
        ):
            more = "more" if amount.error_pct > 0 else "less"
            error = f"{abs(amount.error_pct):.0f} % {more} than the recipe"
            yield f"{part.ingredient.name}: {error}, as near as the {part.tool.name} measures"


def _sugar_that_stays(
    book: Book, target: Target, used: Sequence[tuple[Part, Amount]], come_to: Balance
) -> Iterator[str]:
    """The sugar level is about sweetener only: what the rest brings is said when less was asked for."""
    rest = come_to.sugars_g - come_to.added_sugars_g
    if target.line.sugar >= 100 or rest < 1:
        return
    grams: dict[str, float] = {}
    for part, amount in used:
        if part.role != "sweetener":
            name = part.ingredient.short.lower()
            grams[name] = grams.get(name, 0.0) + amount.mass_g * part.ingredient.sugars
    names = [name for name, sugar in sorted(grams.items(), key=lambda pair: -pair[1]) if sugar >= 0.5]
    source = ", ".join(names[:3]) or "the ingredients"
    yield f"{rest:.0f} g sugars come with {source}, whatever the sugar level"
