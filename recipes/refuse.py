"""Why a line does not fit its cup, and what would: the modifier at fault, in plain words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from recipes.book import Book
from recipes.fit import fit
from recipes.model import Line, Refusal, ToppingChoice
from recipes.modifiers import Target, target

MOST_OFFERED = 6
"""How many ways out a refusal names."""


def too_full(book: Book, of: Target) -> Refusal:
    """The refusal for a target that no share of the drink lets into its cup."""
    line = of.line
    size = book.sizes[line.size].name.lower()
    field, value, cause = _culprit(book, line)
    offered = tuple(
        words for words, other in _ways_out(book, line) if fit(book, target(book, other)) is not None
    )
    accepted = offered[:MOST_OFFERED]
    least = f"less than {of.drink.least_share:.0%} of the drink"
    would = f" What would fit: {', '.join(accepted)}." if accepted else ""
    message = (
        f"{cause} too much room for {_article(size)} {size} {of.drink.name}: {least} would be left.{would}"
    )
    return Refusal("too full", field, value, message, accepted)


def _article(word: str) -> str:
    return "an" if word[:1] in "aeiou" else "a"


def _culprit(book: Book, line: Line) -> tuple[str, str, str]:
    """The modifier without which the line would fit; the size when none of them is to blame alone."""
    usual = book.drinks[line.drink].default.ice
    toppings = ", ".join(choice.topping for choice in line.toppings)
    names = [_portion(book, choice) for choice in line.toppings]
    shots = "1 extra shot takes" if line.shots == 1 else f"{line.shots} extra shots take"
    said = " and ".join(filter(None, [", ".join(names[:-1]), *names[-1:]]))
    tries = [
        (
            "toppings",
            toppings,
            f"{said} take" if len(names) > 1 else f"{said} takes",
            replace(line, toppings=()),
        ),
        ("shots", str(line.shots), shots, replace(line, shots=0)),
        ("ice", line.ice, f"{book.ices[line.ice].name.capitalize()} takes", replace(line, ice=usual)),
    ]
    for field, value, cause, without in tries:
        if without != line and fit(book, target(book, without)) is not None:
            return field, value, cause[:1].upper() + cause[1:]
    return "size", line.size, "What goes in takes"


def _portion(book: Book, choice: ToppingChoice) -> str:
    name = book.toppings[choice.topping].name
    return f"half {name}" if choice.half else name


def _ways_out(book: Book, line: Line) -> Iterator[tuple[str, Line]]:
    """Lines near this one, each with how it differs: a topping less or halved, fewer shots, a larger cup."""
    for choice in line.toppings:
        others = tuple(each for each in line.toppings if each != choice)
        if not choice.half:
            half = ToppingChoice(choice.topping, half=True)
            name = book.toppings[choice.topping].name
            yield f"half {name}", replace(line, toppings=(*others, half))
        yield f"no {book.toppings[choice.topping].name}", replace(line, toppings=others)
    if line.shots:
        yield "one shot less", replace(line, shots=line.shots - 1)
    room = book.sizes[line.size].line_ml
    for size in book.drinks[line.drink].sizes:
        if book.sizes[size].line_ml > room:
            yield f"size {book.sizes[size].name.lower()}", replace(line, size=size)
