"""Why a line cannot be made, and what would do: the modifier at fault and the cure, in plain words."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import islice

from recipes.book import Book
from recipes.building.drink import Made, planned
from recipes.building.plan import Part
from recipes.building.search import Unsettled
from recipes.building.toppings import toppings_of
from recipes.model import HOT, ComponentError, Line, Refusal, ToppingChoice

MOST_OFFERED = 6
"""How many ways out a refusal names."""

FINER_ML = (0.25, 0.5, 1, 1.5, 2, 2.5, 3, 3.5, 5, 7, 7.5, 10, 15, 20, 25, 30)
"""Steps of measures that can be bought or marked on a jug, ml."""


def finer_step(wanted_ml: float, error_pct: float) -> float:
    """The largest step of a measure to be had that keeps ``wanted_ml`` within ``error_pct``."""
    fits = [step for step in FINER_ML if step <= 2 * error_pct / 100 * wanted_ml]
    return max(fits) if fits else FINER_ML[0]


def too_full(book: Book, line: Line, ways_out: bool = True) -> Refusal:
    """The refusal for a line that no share of the drink lets into its cup."""
    drink = book.drinks[line.drink]
    size = book.sizes[line.size].name.lower()
    field, value, cause = _culprit(book, line, _fits)
    accepted = _offered(book, line, _fits) if ways_out else ()
    least = f"less than {100 * drink.least_share:.0f} % of the drink"
    would = f" What would fit: {', '.join(accepted)}." if accepted else ""
    message = f"{cause} too much room for {_article(size)} {size} {drink.name}: {least} would be left.{would}"
    return Refusal("too full", field, value, message, accepted)


def too_coarse(book: Book, line: Line, made: Made, ways_out: bool = True) -> Refusal:
    """The refusal for a line of which a component cannot be measured within the book's limit."""
    error = made.worst
    assert error is not None, "only what is off is refused for it"
    part, wanted_ml = _part_of(made, error)
    field, value, _ = _culprit(book, line, _near_enough)
    drink, size = book.drinks[line.drink], book.sizes[line.size].name
    asked = {
        "sugar": f"at {line.sugar} % sugar in a {size}",
        "toppings": f"in a {size} under its toppings",
        "shots": f"in a {size} with {line.shots} extra shots",
        "ice": f"in a {size} with {book.ices[line.ice].name}",
        "size": f"in a {size}",
    }[field]
    tool = part.jug if part.jug is not None and wanted_ml > (part.tool.reads_ml or 0.0) else part.tools[-1]
    step = tool.step_ml
    cure = finer_step(wanted_ml, book.limit_pct)
    message = (
        f"One {step:g} ml step of the {tool.name} is too coarse for {part.ingredient.name.lower()} {asked} "
        f"{drink.name} (wanted {wanted_ml:.1f} ml, off by {abs(error.error_pct):.0f} %): "
        f"add a measure of {cure:g} ml for it."
    )
    accepted = _offered(book, line, _near_enough) if ways_out else ()
    return Refusal("too coarse", field, value, message, accepted)


def _part_of(made: Made, error: ComponentError) -> tuple[Part, float]:
    """The part that is off, and the millilitres of it that would be right."""
    doses = made.doses if made.top_up is None else (*made.doses, made.top_up)
    part = next(part for part, _ in doses if part.ingredient.id == error.ingredient)
    return part, error.wanted_g / part.ingredient.density


def _made(book: Book, line: Line) -> Made | None:
    try:
        return planned(book, line).made(toppings_of(book, line).load.body_ml)
    except Unsettled:
        return None


def _fits(book: Book, line: Line) -> bool:
    try:
        return planned(book, line).fits(toppings_of(book, line).load.body_ml)
    except Unsettled:
        return False


def _near_enough(book: Book, line: Line) -> bool:
    made = _made(book, line)
    return made is not None and not is_too_far(book, made)


def is_too_far(book: Book, made: Made) -> bool:
    """Whether something is further off than the book lets pass, and than its tool can tell apart."""
    worst = made.worst
    return worst is not None and abs(worst.error_pct) > max(book.limit_pct, worst.tolerance_pct)


def unsettled(book: Book, line: Line, part: Part) -> Refusal:
    """The refusal for a line whose amounts could not be chosen in the time that a search may take."""
    drink, size = book.drinks[line.drink], book.sizes[line.size].name
    tool = part.tool
    wanted = part.wanted_ml(1.0)
    message = (
        f"One {tool.step_ml:g} ml step of the {tool.name} is too far from the {wanted:.0f} ml of "
        f"{part.ingredient.name.lower()} that a {size} {drink.name} wants: no amounts that fit together were "
        f"found. Look at that tool and at the amount in the recipe."
    )
    return Refusal("too coarse", "size", line.size, message, ())


def _article(word: str) -> str:
    return "an" if word[:1] in "aeiou" else "a"


def _culprit(book: Book, line: Line, works: Callable[[Book, Line], bool]) -> tuple[str, str, str]:
    """The modifier without which the line would do; the size when none of them is to blame alone."""
    usual = book.drinks[line.drink].default
    names = [_portion(book, choice) for choice in line.toppings]
    shots = "1 extra shot takes" if line.shots == 1 else f"{line.shots} extra shots take"
    said = " and ".join(filter(None, [", ".join(names[:-1]), *names[-1:]]))
    take = "take" if len(names) > 1 else "takes"
    ice = f"{book.ices[line.ice].name.capitalize()} takes"
    asked = ", ".join(choice.topping for choice in line.toppings)
    tries = [
        ("toppings", asked, f"{said} {take}", replace(line, toppings=())),
        ("shots", str(line.shots), shots, replace(line, shots=0)),
        ("ice", line.ice, ice, replace(line, ice=usual.ice)),
        ("sugar", str(line.sugar), f"{line.sugar} % sugar takes", replace(line, sugar=usual.sugar)),
    ]
    for field, value, cause, without in tries:
        if without != line and _allowed(book, without) and works(book, without):
            return field, value, cause[:1].upper() + cause[1:]
    return "size", line.size, "What goes in takes"


def _allowed(book: Book, line: Line) -> bool:
    """Whether the toppings stand the heat of another choice of ice."""
    return all(book.toppings[choice.topping].hot for choice in line.toppings) or line.ice != HOT


def _portion(book: Book, choice: ToppingChoice) -> str:
    name = book.toppings[choice.topping].name
    return f"half {name}" if choice.half else name


def _offered(book: Book, line: Line, works: Callable[[Book, Line], bool]) -> tuple[str, ...]:
    """The first ways out that work: no more are looked at than are named."""
    return tuple(
        islice((words for words, other in _ways_out(book, line) if works(book, other)), MOST_OFFERED)
    )


def _ways_out(book: Book, line: Line) -> Iterator[tuple[str, Line]]:
    """Lines near this one, each with how it differs: a topping less or halved, fewer shots, a larger cup."""
    for choice in line.toppings:
        others = tuple(each for each in line.toppings if each != choice)
        if not choice.half and book.toppings[choice.topping].half_price is not None:
            half = ToppingChoice(choice.topping, half=True)
            name = book.toppings[choice.topping].name
            whole = tuple(sorted((*others, half), key=lambda each: each.topping))
            yield f"half {name}", replace(line, toppings=whole)
        yield f"no {book.toppings[choice.topping].name}", replace(line, toppings=others)
    if line.shots:
        yield "one shot less", replace(line, shots=line.shots - 1)
    cubes = book.ices[line.ice].factor
    for ice in book.drinks[line.drink].ices:
        if ice != HOT and book.ices[ice].factor < cubes:
            yield book.ices[ice].name, replace(line, ice=ice)
    for sugar in sorted(book.drinks[line.drink].sugars):
        if sugar > line.sugar:
            yield book.sugars[sugar].name, replace(line, sugar=sugar)
    room = book.sizes[line.size].line_ml
    for size in book.drinks[line.drink].sizes:
        if book.sizes[size].line_ml > room:
            yield f"size {book.sizes[size].name.lower()}", replace(line, size=size)
