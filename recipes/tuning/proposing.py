"""Amounts for the sizes that nobody has written yet: what a hand would measure nearest to proportion.

Proportion is that of the cups' seal lines to the size the steps are written for. Looked at is what a hand
repeats with the recipe's own tool: whole and half scoops, ladles and ice scoops, whole strokes, cubes and
shots, the marks of a jigger, and those of the jug for more than a jigger holds. They are ranked as the
search ranks (``recipes.building.search``): squared relative error, what the spread adds to it, and the
seconds beyond a plain measure at 0.01 / patience each. What is proposed for a size fits together under its
seal line and in its vessel: where it would not, the amount that costs least to lower is lowered."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from recipes.book import Book, Drink, Measured, RecipeStep, Tool
from recipes.building.drink import PlannedDrink
from recipes.hands import LINE_ML, beyond, plain_spread_ml, seconds, spread_ml
from recipes.measures import figure, nearest
from recipes.model import HOT

MOST_OTHERS = 3
"""How many alternatives are told beside a proposal."""

REACH = 0.6
"""How far from proportion alternatives are looked for, as a share of it, beside the nearest two."""

FULL_ML = 1e-6
"""How far past a limit is still floating point, ml."""

HAND_STEP = {"scoop": 0.5, "ladle": 0.5, "ice scoop": 0.5, "pump": 1.0, "cube": 1.0, "shot": 1.0}
"""The parts of a unit that a hand repeats, in units of the tool."""


@dataclass(frozen=True, slots=True)
class Offer:
    """An amount that can be measured: how it is written ("3 scoops"), ml, how far off proportion in per cent,
    seconds of hands. ``alike`` are sugar levels in per cent which come to the same count with it."""

    text: str
    tool: str
    ml: float
    error_pct: float
    seconds: float
    alike: tuple[tuple[int, ...], ...]
    cost: float


@dataclass(frozen=True, slots=True)
class Proposal:
    """What is proposed for a step (its place from 0) at a size; ``hot``: in the key of the hot drink.

    ``wanted`` is proportion in the tool's words ("2.86 scoops"), ``written`` what stands there, if anything
    does. ``lowered`` where something nearer or handier would not have fitted the cup.
    """

    drink: str
    step: int
    ingredient: str
    size: str
    hot: bool
    wanted: str
    written: Measured | None
    best: Offer
    others: tuple[Offer, ...]
    lowered: bool


Cell = tuple[int, bool]
"""A step's place, and whether it is the hot drink's amount."""


def proposals(book: Book, drink_id: str, anew: bool = False) -> list[Proposal]:
    """What to write for every size of a drink that is not written; ``anew`` for those written as well.

    Hot amounts are proposed where the recipe has hot amounts of its own; elsewhere hot takes the same.
    """
    drink = book.drinks[drink_id]
    found: list[Proposal] = []
    for size in drink.sizes:
        if size != drink.reference:
            found += _at_size(book, drink, size, anew)
    return sorted(found, key=lambda each: each.step)


def follows(book: Book, drink: Drink, step: RecipeStep, size: str, hot: bool) -> Measured | None:
    """Exact proportion of what is written for the reference size; None for work."""
    reference = step.written(drink.reference, hot)
    if reference is None:
        return None
    return Measured(reference.tool, reference.ml * book.sizes[size].line_ml / _line_ml(book, drink))


def told(tool: Tool, ml: float) -> str:
    """Millilitres in a tool's words, to two decimals of its units: "2.86 scoops", "171 ml"."""
    if tool.kind in ("jug", "jigger"):
        return f"{round(ml, 1):g} ml"
    count = round(ml / tool.unit_ml, 2)
    return f"{figure(count)} {tool.one if count <= 1 else tool.many}"


def offers(book: Book, tool: Tool, wanted_ml: float, sugars: tuple[int, ...] = ()) -> list[Offer]:
    """The amounts near a wanted one that a hand would measure with a tool, the best first, then the larger.

    ``sugars`` are levels in per cent that a sweetener is sold at.
    """
    found = [
        _offer(book, each, count, wanted_ml, sugars)
        for each, step in _steps_of(book, tool)
        for count in _near(step, each, wanted_ml)
        if _holds(book, tool, each, count)
    ]
    return sorted(found, key=lambda each: (round(each.cost, 9), -each.ml))


def _line_ml(book: Book, drink: Drink) -> float:
    return book.sizes[drink.reference].line_ml


def _at_size(book: Book, drink: Drink, size: str, anew: bool) -> Iterator[Proposal]:
    cells = {(place, hot): each for place, hot, each in _open(book, drink, size, anew)}
    if not cells:
        return
    ranked: dict[Cell, list[Offer]] = {}
    for (place, hot), wanted in cells.items():
        sugars = drink.sugars if drink.steps[place].role == "sweetener" else ()
        ranked[place, hot] = offers(book, book.tools[wanted.tool], wanted.ml, sugars)
    chosen = _fitting(book, drink, size, ranked)
    for cell, best in chosen.items():
        place, hot = cell
        step = drink.steps[place]
        others = []
        for each in ranked[cell]:
            if each is not best and _fits(book, drink, size, {**chosen, cell: each}):
                others.append(each)
            if len(others) == MOST_OTHERS:
                break
        assert step.ingredient is not None
        yield Proposal(
            drink=drink.id,
            step=place,
            ingredient=step.ingredient,
            size=size,
            hot=hot,
            wanted=told(book.tools[cells[cell].tool], cells[cell].ml),
            written=(step.hot if hot else step.by_size).get(size),
            best=best,
            others=tuple(others),
            lowered=best is not ranked[cell][0],
        )


def _open(book: Book, drink: Drink, size: str, anew: bool) -> Iterator[tuple[int, bool, Measured]]:
    """The cells to propose for at a size, with exact proportion."""
    for place, step in enumerate(drink.steps):
        for hot, cells in ((False, step.by_size), (True, step.hot)):
            wanted = follows(book, drink, step, size, hot)
            if drink.reference in cells and (anew or size not in cells) and wanted is not None:
                yield place, hot, wanted


def _steps_of(book: Book, tool: Tool) -> Iterator[tuple[Tool, float]]:
    """The tools to look at, each with the part of a unit that a hand repeats."""
    yield tool, _step_of(tool)
    if tool.kind == "jigger" and tool.reads_ml is not None:
        for jug in [each for each in book.tools.values() if each.kind == "jug"][:1]:
            yield jug, _step_of(jug)


def _step_of(tool: Tool) -> float:
    smallest = tool.least
    lines = {"jigger": LINE_ML, "jug": smallest}
    hand = tool.mark_ml or lines.get(tool.kind) or HAND_STEP[tool.kind]
    return smallest * max(1, math.ceil(hand / smallest - 1e-9))


def _holds(book: Book, own: Tool, tool: Tool, count: float) -> bool:
    """Whether a reading is taken with this tool: what a jigger holds at once with it, more with the jug."""
    if own.kind != "jigger" or own.reads_ml is None or not any(t.kind == "jug" for t in book.tools.values()):
        return True
    return (count <= own.reads_ml + FULL_ML) == (tool is own)


def _near(step: float, tool: Tool, wanted_ml: float) -> list[float]:
    wanted = wanted_ml / tool.unit_ml
    first = max(1, math.floor(min(wanted * (1 - REACH), wanted - 2 * step) / step))
    last = math.ceil(max(wanted * (1 + REACH), wanted + 2 * step) / step)
    every = [number * step for number in range(first, last + 1)]
    return sorted(every, key=lambda count: abs(count - wanted))[:8]


def _offer(book: Book, tool: Tool, count: float, wanted_ml: float, sugars: tuple[int, ...]) -> Offer:
    measure = tool.measure(count)
    ml = count * tool.unit_ml
    error = ml / wanted_ml - 1
    spread = max(0.0, spread_ml(measure) ** 2 - plain_spread_ml(measure) ** 2)
    cost = error * error + spread / wanted_ml**2 + beyond(book.hands, measure) * book.hands.per_second
    unit = tool.one if count <= 1 else tool.many
    return Offer(
        text=f"{figure(count)} {unit}",
        tool=tool.id,
        ml=ml,
        error_pct=round(100 * error, 4) + 0.0,
        seconds=round(seconds(book.hands, measure), 2),
        alike=_alike(tool, ml, sugars),
        cost=cost,
    )


def _alike(tool: Tool, ml: float, sugars: tuple[int, ...]) -> tuple[tuple[int, ...], ...]:
    """Sugar levels that come to the same count of the tool's smallest steps."""
    counts: defaultdict[float, list[int]] = defaultdict(list)
    for percent in sorted(sugars):
        counts[nearest(ml * percent / 100 / tool.step_ml, 1.0)].append(percent)
    return tuple(tuple(levels) for levels in counts.values() if len(levels) > 1)


def _fitting(book: Book, drink: Drink, size: str, ranked: Mapping[Cell, list[Offer]]) -> dict[Cell, Offer]:
    """One offer for each cell that fit together, at the least cost found step by step downwards."""
    chosen = {cell: found[0] for cell, found in ranked.items()}
    while not _fits(book, drink, size, chosen):
        lower = [
            (each.cost - chosen[cell].cost, cell, each)
            for cell, found in ranked.items()
            for each in found
            if each.ml < chosen[cell].ml - FULL_ML
        ]
        if not lower:
            break
        _, cell, each = min(lower, key=lambda one: (one[0], one[1]))
        chosen[cell] = each
    return chosen


def with_amounts(book: Book, drink: Drink, size: str, chosen: Mapping[Cell, Offer]) -> Book:
    """The book with these amounts written for a size of a drink."""
    steps = []
    for place, step in enumerate(drink.steps):
        cold, warm = chosen.get((place, False)), chosen.get((place, True))
        by_size = {**step.by_size, size: Measured(cold.tool, cold.ml)} if cold else step.by_size
        hot = {**step.hot, size: Measured(warm.tool, warm.ml)} if warm else step.hot
        steps.append(replace(step, by_size=by_size, hot=hot))
    return replace(book, drinks={**book.drinks, drink.id: replace(drink, steps=tuple(steps))})


def _fits(book: Book, drink: Drink, size: str, chosen: Mapping[Cell, Offer]) -> bool:
    """Whether the plain drink, iced and hot, stays under its seal line and in its vessel with these."""
    after = with_amounts(book, drink, size, chosen)
    cold = [ice for ice in drink.ices if ice != HOT and book.ices[ice].factor == 1]
    for ice in (*cold, *((HOT,) if HOT in drink.ices else ())):
        planned = PlannedDrink(after, replace(drink.default, size=size, ice=ice))
        load = planned.group.load(1.0)
        if planned.group.settle(load).filled_ml > planned.line_ml + FULL_ML:
            return False
        if load.unmelted_ml > planned.vessel_ml + FULL_ML:
            return False
    return True
