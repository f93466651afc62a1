"""One line held to the proof's checks by itself: what a register asks of a book whose proof does not hold."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from recipes.book import Book
from recipes.building.resolve import resolve, resolved
from recipes.model import HOT, Build, Line, Refusal
from recipes.proof.checks import (
    Breach,
    Measure,
    breaches,
    less_sweet,
    measure_of,
    sweet_step_g,
    warmer,
    weaker_or_smaller,
)

FIELD = {"sugar": "sugar", "ice": "ice", "shots": "shots"}
"""The field of a line that is refused for each way of not being monotone; else it is the drink."""


def objection(book: Book, build: Build) -> Breach | None:
    """The first check that a build fails, alone or beside the next one down in sugar, ice or shots."""
    alone = next(breaches(book, build), None)
    if alone is not None:
        return alone
    step_g = sweet_step_g(book, build.line.drink)
    measure = measure_of(resolved(book, build.line), step_g)
    for what, worse, lower in _chains(book, build.line):
        less = next((found for line in lower if (found := _measure(book, line, step_g)) is not None), None)
        message = worse(less, measure) if less is not None else None
        if message is not None:
            return Breach("not monotone", what, message)
    return None


def refuse_unproved(book: Book, build: Build) -> None:
    """Raise Refusal for a build that the proof objects to, with the choices nearby that would do."""
    found = objection(book, build)
    if found is None:
        return
    field = FIELD.get(found.what, "drink")
    value = str(getattr(build.line, field))
    offered = tuple(words for words, line in _others(book, build.line, field) if _stands(book, line))
    would = f" What would do: {', '.join(offered)}." if offered else " Choose otherwise."
    message = f"Not as the book stands, whose proof fails here: {found.message}.{would}"
    raise Refusal("not proved", field, value, message, offered)


def _others(book: Book, line: Line, field: str) -> Iterator[tuple[str, Line]]:
    """The line with each other choice of one field, in words."""
    drink = book.drinks[line.drink]
    if field == "sugar":
        for sugar in drink.sugars:
            yield book.sugars[sugar].name, replace(line, sugar=sugar)
    elif field == "ice":
        for ice in drink.ices:
            yield book.ices[ice].name, replace(line, ice=ice)
    elif field == "shots":
        for shots in range(drink.shots + 1):
            yield "1 extra shot" if shots == 1 else f"{shots or 'no'} extra shots", replace(line, shots=shots)


def _stands(book: Book, line: Line) -> bool:
    """Whether a line has a build that the proof does not object to."""
    try:
        return objection(book, resolve(book, line)) is None
    except Refusal:
        return False


def _chains(
    book: Book, line: Line
) -> Iterator[tuple[str, Callable[[Measure, Measure], str | None], list[Line]]]:
    """What a line is compared by, with the lines below it, the nearest first."""
    drink = book.drinks[line.drink]
    sugars = sorted((sugar for sugar in drink.sugars if sugar < line.sugar), reverse=True)
    yield "sugar", less_sweet, [replace(line, sugar=sugar) for sugar in sugars]
    if line.ice != HOT:
        factor = book.ices[line.ice].factor
        ices = [ice for ice in drink.ices if ice != HOT and book.ices[ice].factor < factor]
        ices.sort(key=lambda ice: -book.ices[ice].factor)
        yield "ice", warmer, [replace(line, ice=ice) for ice in ices]
    yield "shots", weaker_or_smaller, [replace(line, shots=shots) for shots in range(line.shots - 1, -1, -1)]


def _measure(book: Book, line: Line, step_g: float) -> Measure | None:
    try:
        return measure_of(resolved(book, line), step_g)
    except Refusal:
        return None
