"""Proving: every combination of a drink resolved, checked alone and held against its neighbours.

A part is a drink at one size: modifiers never compare across sizes, so parts can be proved apart, on
several cores, and merged. Nothing is read or written here.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import pairwise

from recipes.asking.combinations import all_lines
from recipes.book import Book
from recipes.building.resolve import resolved
from recipes.model import HOT, Line, Refusal, ToppingChoice
from recipes.proof.checks import (
    Breach,
    Measure,
    less_sweet,
    measure_of,
    warmer,
    weaker_or_smaller,
)
from recipes.proof.fingerprint import fingerprint
from recipes.proof.levels import Coincide, coincide
from recipes.proof.model import DrinkProof
from recipes.proof.tally import Tally, merged

EVERY = 500
"""After how many combinations progress is told."""

Group = tuple[tuple[ToppingChoice, ...], str | None, tuple[str, ...]]
"""What neighbours share: toppings, milk, left-out ingredients."""

Place = tuple[int, str, int]
"""Where a line stands among its neighbours: sugar, ice, shots."""

Worse = Callable[[Measure, Measure], str | None]
"""In words, when the second, which has more of something, is worse for it than the first."""

OnProgress = Callable[[int], None]
"""Told how many combinations were looked at since it was last told."""


def prove_drink(book: Book, drink_id: str, on_progress: OnProgress = lambda count: None) -> DrinkProof:
    """The proof of one drink, over every line that the register can ring in."""
    return merged([prove_part(book, drink_id, size, on_progress) for size in book.drinks[drink_id].sizes])


def prove_part(
    book: Book, drink_id: str, size: str, on_progress: OnProgress = lambda count: None
) -> DrinkProof:
    """The proof of one drink at one size."""
    tally = Tally(book, drink_id)
    measures: dict[Group, dict[Place, Measure]] = {}
    seen = 0
    for line in all_lines(book, drink_id, size):
        found = _look_at(tally, line)
        if found is not None:
            group = measures.setdefault((line.toppings, line.milk, line.without), {})
            group[line.sugar, line.ice, line.shots] = found
        seen += 1
        if seen % EVERY == 0:
            on_progress(EVERY)
    on_progress(seen % EVERY)
    chains = Chains(book, drink_id)
    for (toppings, milk, without), group in measures.items():
        for (sugar, ice, shots), breach in chains.breaches(group):
            line = Line(drink_id, size, sugar, ice, shots, toppings, milk, without)
            tally.add_breach(line, breach, [])
    return tally.proof(fingerprint(book, drink_id), _same(book, drink_id, size))


def _same(book: Book, drink_id: str, size: str) -> list[Coincide]:
    """The plain levels that are one measure; none where a build fails, which the tally has told of."""
    try:
        return coincide(book, drink_id, size)
    except Exception:  # whatever it is: the combination that it comes from breaks the proof already
        return []


def _look_at(tally: Tally, line: Line) -> Measure | None:
    """Add one combination to the tally; what its neighbours compare with, None when it is not built."""
    try:
        found = resolved(tally.book, line, ways_out=False)
    except Refusal as refusal:
        tally.add_refused(line, refusal)
        if not (refusal.message and refusal.field in Line.__dataclass_fields__):
            dishonest = f"refused without saying what of the line is at fault: {refusal.message!r}"
            tally.add_breach(line, Breach("no build", "refusal", dishonest), [])
        return None
    except Exception as fault:  # whatever it is, this combination has no build: that is the finding
        tally.add_refused(line, Refusal("no build", "drink", line.drink, repr(fault)))
        tally.add_breach(line, Breach("no build", type(fault).__name__, f"no build: {fault!r}"), [])
        return None
    for breach in tally.add_built(line, found):
        tally.add_breach(line, breach, tally.looks.drink(found).errors)
    return measure_of(found, tally.sweet_step_g)


class Chains:
    """The neighbours of a drink: sugar levels, ice levels and shots, each from less to more."""

    def __init__(self, book: Book, drink_id: str) -> None:
        drink = book.drinks[drink_id]
        sugars, all_ices, shots = sorted(drink.sugars), drink.ices, range(drink.shots + 1)
        ices = sorted((ice for ice in all_ices if ice != HOT), key=lambda ice: book.ices[ice].factor)
        self._rows: list[tuple[str, Worse, list[list[Place]]]] = [
            ("sugar", less_sweet, [[(s, i, n) for s in sugars] for i in all_ices for n in shots]),
            ("ice", warmer, [[(s, i, n) for i in ices] for s in sugars for n in shots]),
            ("shots", weaker_or_smaller, [[(s, i, n) for n in shots] for s in sugars for i in all_ices]),
        ]

    def breaches(self, group: dict[Place, Measure]) -> Iterator[tuple[Place, Breach]]:
        """Every place that is worse than its neighbour with less, a refused one in between left out."""
        for what, worse, chains in self._rows:
            for chain in chains:
                there = [place for place in chain if place in group]
                for less, more in pairwise(there):
                    message = worse(group[less], group[more])
                    if message is not None:
                        yield more, Breach("not monotone", what, message)
