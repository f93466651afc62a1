"""From readings to edits of the book: what a scoop weighs, what a stroke holds, how far a shake chills."""

from __future__ import annotations

from recipes.balance.heat import chilling_extent
from recipes.book import Book, Ingredient, Tool
from recipes.weighing import Weighing, weigh
from service.bench.wire import Chilled, ChillIn, Edit, Weighed, WeighIn

KINDS = {"scoop": "scoop", "stroke": "pump", "shot": "shot", "cube": "cube", "ladle": "ladle"}
"""What is weighed, and the kind of tool that measures it."""

BY_DENSITY = ("scoop", "ladle")
"""Measures whose room is known, so that their weight tells the density; of the others the room is sought."""


LEAST_EXTENT = 0.01
"""A station that melts less of the ice than this was not worked at; the book takes 1 % and more."""


class CannotMeasure(ValueError):
    """Raised when a weighing does not fit the book: the field, what it held and what is accepted."""

    def __init__(self, field: str, value: str, accepted: str) -> None:
        super().__init__(f"{field} is {value!r}; accepted: {accepted}")
        self.field, self.value, self.accepted = field, value, accepted


def weighed(book: Book, asked: WeighIn) -> Weighed:
    """What readings come to, and the edits that take them over. Raises CannotMeasure."""
    weighing = judged(asked.readings_g)
    if asked.tool is None or asked.ingredient is None:
        return Weighed(weighing=weighing, finding=f"One {asked.what} weighs {weighing.mean:.1f} g.", edits=[])
    tool, ingredient = tool_of(book, asked.tool), ingredient_of(book, asked.ingredient)
    if tool.kind != KINDS[asked.what]:
        fits = [each.id for each in book.tools.values() if each.kind == KINDS[asked.what]]
        raise CannotMeasure("tool", tool.id, f"a {KINDS[asked.what]}: {', '.join(fits)}")
    if asked.what in BY_DENSITY:
        density = weighing.mean / tool.unit_ml
        finding = (
            f"One {tool.one} of {ingredient.name} weighs {weighing.mean:.1f} g: {density:.3g} g/ml, "
            f"until now {ingredient.density:.3g} g/ml."
        )
        return Weighed(weighing=weighing, finding=finding, edits=density_edit(ingredient, density))
    holds = weighing.mean / ingredient.density
    finding = (
        f"One {tool.one} of {ingredient.name} weighs {weighing.mean:.1f} g: it holds {holds:.3g} ml, "
        f"until now {tool.unit_ml:.3g} ml."
    )
    edit = Edit(file="shop.toml", path=["tools", tool.id, "holds"], value=f"{figure_words(holds)} ml")
    return Weighed(weighing=weighing, finding=finding, edits=[edit])


def chilled(book: Book, asked: ChillIn) -> Chilled:
    """How far a station gets with chilling, and the edit that takes it over. Raises CannotMeasure."""
    if asked.station not in book.stations:
        raise CannotMeasure("station", asked.station, ", ".join(book.stations))
    station = book.stations[asked.station]
    extents = []
    for n, each in enumerate(asked.readings, 1):
        try:
            share = chilling_extent(each.liquid_g, each.liquid_c, each.ice_g, each.ice_c, each.end_c)
        except ValueError as problem:
            said, _, accepted = str(problem).partition("; accepted: ")
            raise CannotMeasure(f"readings[{n - 1}]", said, accepted) from None
        if share < LEAST_EXTENT:
            said = f"{each.end_c:g} °C from {each.liquid_c:g} °C"
            raise CannotMeasure(
                f"readings[{n - 1}].end_c", said, "an end at which some of the ice has melted"
            )
        extents.append(round(100 * share, 2))
    if len(extents) < 2:
        return Chilled(extents_pct=extents, weighing=None, finding="", edits=[])
    weighing = weigh(extents, "%")
    told = f"{figure_words(round(weighing.mean, 1))} %"
    finding = (
        f"At {station.name}, {told} of the melting happens that could; in the book it is "
        f"{100 * station.melt_share:.4g} %. The less it is, the warmer and the less diluted its drinks are."
    )
    edit = Edit(file="shop.toml", path=["stations", station.id, "melt"], value=told)
    return Chilled(extents_pct=extents, weighing=weighing, finding=finding, edits=[edit])


def density_edit(ingredient: Ingredient, density: float) -> list[Edit]:
    """The edit that writes a density, g/ml."""
    return [Edit(file="pantry.toml", path=[ingredient.id, "density"], value=f"{figure_words(density)} g/ml")]


def figure_words(number: float) -> str:
    """Four significant digits without an exponent: more than any scale at a bar can tell."""
    digits = f"{number:.4g}"
    return f"{float(digits):.6f}".rstrip("0").rstrip(".") if "e" in digits else digits


def judged(readings: list[float]) -> Weighing:
    """Readings in grams and their verdict. Raises CannotMeasure."""
    try:
        return weigh(readings)
    except ValueError as problem:
        raise CannotMeasure("readings_g", str(len(readings)), str(problem)) from None


def tool_of(book: Book, id: str) -> Tool:
    """A tool by its id. Raises CannotMeasure."""
    if id not in book.tools:
        raise CannotMeasure("tool", id, ", ".join(book.tools))
    return book.tools[id]


def ingredient_of(book: Book, id: str) -> Ingredient:
    """An ingredient by its id. Raises CannotMeasure."""
    if id not in book.pantry:
        raise CannotMeasure("ingredient", id, ", ".join(book.pantry))
    return book.pantry[id]
