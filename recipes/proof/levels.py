"""What the sugar and ice levels of a plain drink come to in measures, and which of them come to the same.

A guest who pays attention tastes no difference between two levels that are one measure: three strokes at
100 per cent are two at 50 (1.5, a tie rounds up) and two at 75 (2.25).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

from recipes.book import Book, IceLevel, SugarLevel
from recipes.building.resolve import resolve
from recipes.measures import figure
from recipes.model import HOT, Amount, Line, Refusal, Step

Kind = Literal["sugar", "ice"]

NOTHING = "nothing"
"""What a level comes to when nothing goes in."""


@dataclass(frozen=True, slots=True)
class Coincide:
    """Neighbouring levels of a plain drink in one size that come to the same measure.

    ``values`` are their ids and ``levels`` their names from less to more, ``measure`` what they come to
    ("2 strokes", "nothing")."""

    kind: Kind
    size: str
    values: tuple[str, ...]
    levels: tuple[str, ...]
    measure: str


def sugar_levels(book: Book, drink_id: str, size: str) -> list[tuple[SugarLevel, Amount | None]]:
    """Every sugar level of the plain drink from less to more, with what its sweetener comes to as built.

    None where nothing goes in or the level is refused; of several sweeteners the first that goes in. Raises
    ``KeyError`` for a drink that is not in the book."""
    lines = _sugar_lines(book, drink_id, size)
    return [(level, _first(_doses(book, line, "sugar"))) for level, line in lines]


def ice_levels(book: Book, drink_id: str, size: str) -> list[tuple[IceLevel, Amount | None]]:
    """Every ice level of the plain drink from less to more, hot left out, with its ice as built.

    None where there is none or the level is refused. Raises ``KeyError`` for a drink that is not in the
    book."""
    return [(level, _first(_doses(book, line, "ice"))) for level, line in _ice_lines(book, drink_id, size)]


def coincide(book: Book, drink_id: str, size: str) -> list[Coincide]:
    """The neighbouring levels of a plain drink that come to the same measure of all that they change.

    A refused level is left out, and so are levels of what the drink has none of."""
    sugars = [(str(level.percent), level.name, line) for level, line in _sugar_lines(book, drink_id, size)]
    ices = [(level.id, level.name, line) for level, line in _ice_lines(book, drink_id, size)]
    return [*_runs(book, "sugar", size, sugars), *_runs(book, "ice", size, ices)]


def coinciding(book: Book) -> list[tuple[str, Coincide]]:
    """Every coincidence of a book's plain drinks, each with its drink's id, in the order of the menu."""
    return [
        (drink.id, each)
        for drink in book.drinks.values()
        for size in drink.sizes
        for each in coincide(book, drink.id, size)
    ]


def told(book: Book, found: Iterable[tuple[str, Coincide]]) -> list[tuple[str, list[tuple[str, Coincide]]]]:
    """Coincidences in words, those of the same levels together, each with what it tells of."""
    groups: dict[tuple[str, tuple[str, ...]], list[tuple[str, Coincide]]] = {}
    for drink, each in found:
        groups.setdefault((each.kind, each.levels), []).append((drink, each))
    return [(_words(book, group), group) for group in groups.values()]


def _words(book: Book, group: list[tuple[str, Coincide]]) -> str:
    drink, first = group[0]
    levels = f"{', '.join(first.levels[:-1])} and {first.levels[-1]}"
    drinks = len({id for id, _ in group})
    where = f"in {drinks} drinks; for one, " if drinks > 1 else "in "
    name, size = book.drinks[drink].name, book.sizes[first.size].name
    measure = first.measure if first.measure != NOTHING else "nothing of it"
    sizes = [book.sizes[each.size].name for id, each in group if id == drink]
    also = f", and so in {' and '.join(sizes[1:])}" if len(sizes) > 1 else ""
    return f"{levels} come to the same {where}{name} ({size}: {measure}{also})"


def _runs(book: Book, kind: Kind, size: str, lines: list[tuple[str, str, Line]]) -> list[Coincide]:
    found = [
        (value, name, doses) for value, name, line in lines if (doses := _doses(book, line, kind)) is not None
    ]
    if not any(doses for _, _, doses in found):
        return []
    runs: list[list[int]] = []
    for one, two in pairwise(range(len(found))):
        if [_what(step) for step in found[one][2]] != [_what(step) for step in found[two][2]]:
            continue
        if runs and runs[-1][-1] == one:
            runs[-1].append(two)
        else:
            runs.append([one, two])
    return [
        Coincide(
            kind,
            size,
            tuple(found[place][0] for place in run),
            tuple(found[place][1] for place in run),
            _measure(found[run[0]][2]),
        )
        for run in runs
    ]


def _sugar_lines(book: Book, drink_id: str, size: str) -> list[tuple[SugarLevel, Line]]:
    drink = book.drinks[drink_id]
    plain = replace(drink.default, size=size)
    return [(book.sugars[each], replace(plain, sugar=each)) for each in sorted(drink.sugars)]


def _ice_lines(book: Book, drink_id: str, size: str) -> list[tuple[IceLevel, Line]]:
    drink = book.drinks[drink_id]
    plain = replace(drink.default, size=size)
    levels = sorted((book.ices[each] for each in drink.ices if each != HOT), key=lambda level: level.factor)
    return [(level, replace(plain, ice=level.id)) for level in levels]


def _doses(book: Book, line: Line, kind: Kind) -> tuple[Step, ...] | None:
    """The steps of a build that put in what a level changes; None where it is refused."""
    try:
        steps = resolve(book, line).steps
    except Refusal:
        return None
    if kind == "ice":
        wanted = {each.id for each in book.pantry.values() if each.kind == "ice"}
    else:
        recipe = [step for step in book.drinks[line.drink].steps if step.role == "sweetener"]
        wanted = {step.instead.get(line.ice, step.ingredient or "") for step in recipe}
    return tuple(step for step in steps if step.amount is not None and step.ingredient in wanted)


def _first(doses: tuple[Step, ...] | None) -> Amount | None:
    return doses[0].amount if doses else None


def _what(step: Step) -> tuple[str | None, float]:
    """What tells two measures apart: of what, and how much."""
    return step.ingredient, step.amount.volume_ml if step.amount is not None else 0.0


def _measure(doses: tuple[Step, ...]) -> str:
    amounts = [step.amount for step in doses if step.amount is not None]
    return " and ".join(f"{figure(each.count)} {each.unit}" for each in amounts) or NOTHING
