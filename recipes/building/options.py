"""What a hand would measure: the amounts near a wanted one that a part's tools give, each in one plain way.

Looked at are whole steps of the recipe's own tool (every step up to one and a half hundredths of what is
wanted, several at a time below that); from a jug what is more than a jigger holds; and steps of the own tool
with less than one step of a finer one, only where the owner has named finer tools for the ingredient and
nothing else brings the part within what a tongue can tell. Other ways of measuring the same (twenty
millilitres by quarter scoops where the scoop steps by nine) are left out: nobody would look for them.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from recipes.book import Tool
from recipes.building.plan import Part
from recipes.hands import spread_ml

GRAIN = 0.01
"""Steps finer than this share of what is wanted are taken several at a time: nobody tastes half a per cent,
and a jug marked every drop would make for more choices than could ever be looked through."""

NOTICED = {"sweetener": 0.10, "powder": 0.12, "milk": 0.10, "tea": 0.10}
"""How far off a guest may notice, as a share: half again a difference threshold of 6 to 9 per cent for sugar
side by side (chocolate milk, Oliveira et al. 2016; cola, J. Sens. Stud. 10.1111/joss.12803), since one cup
has no other beside it; a Weber fraction of 0.2 to 0.3 for bitterness. Argued, a house setting."""

NOTICED_ELSE = 0.10

_SLACK = 1e-9
"""Keeps an amount that lies on a limit inside it, when it was reached through floating point."""


class Option(NamedTuple):
    """One amount that can be measured: ``ml``, and how many of the smallest steps of which tools."""

    ml: float
    counts: tuple[tuple[Tool, int], ...]


def options(part: Part, low_ml: float, high_ml: float, wanted_ml: float) -> list[Option]:
    """Every amount from ``low_ml`` to ``high_ml`` that a hand would measure for a part, in order.

    Nothing at all is an amount too. Steps finer than ``GRAIN`` of ``wanted_ml`` come several at a time,
    counted from the one nearest to it."""
    own, *others = part.tools
    grain = GRAIN * wanted_ml
    if part.jug is not None and own.reads_ml is not None:
        # A reading that one filling holds, by the jigger; more, by the jug.
        found = list(_whole(own, low_ml, min(high_ml, own.reads_ml), wanted_ml, grain))
        over = [
            option for option in _whole(part.jug, max(low_ml, 0.0), high_ml, wanted_ml, grain)
            if option.ml > own.reads_ml + _SLACK
        ]  # fmt: skip
        return found + over
    found = list(_whole(own, low_ml, high_ml, wanted_ml, grain))
    if not others or own.step_ml <= grain or not pays(part, wanted_ml):
        return found
    for finer in others:
        if finer.reads_ml is not None:
            found += _whole(finer, low_ml, min(high_ml, finer.reads_ml), wanted_ml, grain)
    for finer in others:
        found += _with_finer(own, finer, low_ml, high_ml, grain)
    handiest: dict[float, Option] = {}
    for option in found:
        handiest.setdefault(round(option.ml, 6), option)
    return sorted(handiest.values(), key=lambda option: option.ml)


def tells_apart_ml(part: Part, wanted_ml: float) -> float:
    """How far apart the amounts are that a part's tools tell apart, ml: its own tool's, a finer one's if it
    pays.
    """
    steps = [part.tool.step_ml]
    if len(part.tools) > 1 and pays(part, wanted_ml):
        steps += [tool.step_ml for tool in part.tools[1:]]
    return min(step * _at_a_time(step, GRAIN * wanted_ml) for step in steps)


def noticed(part: Part) -> float:
    """How far off a guest may notice a part, as a share of it."""
    if part.role == "sweetener":
        return NOTICED["sweetener"]
    return NOTICED.get(part.ingredient.kind, NOTICED_ELSE)


def pays(part: Part, wanted_ml: float) -> bool:
    """Whether a second tool pays: the own tool alone leaves more than a guest would not notice, and a finer
    one with it does not. The error of a build is √(b² + Σσ²), b being what the amount is off and σ each
    act's spread."""
    if wanted_ml <= 0:
        return False
    own, limit = part.tool, noticed(part) * wanted_ml
    count = math.floor(wanted_ml / own.step_ml + 0.5 + _SLACK)
    if _rms(own, count, wanted_ml - count * own.step_ml) <= limit:
        return False
    for finer in part.tools[1:]:
        base = math.floor(wanted_ml / own.step_ml + _SLACK)
        rest = wanted_ml - base * own.step_ml
        fine = math.floor(rest / finer.step_ml + 0.5 + _SLACK)
        spread = _spread(own, base) ** 2 + _spread(finer, fine) ** 2
        if math.sqrt((rest - fine * finer.step_ml) ** 2 + spread) <= limit:
            return True
    return False


def _spread(tool: Tool, steps: int) -> float:
    return spread_ml(tool.measure(steps * tool.least))


def _rms(tool: Tool, steps: int, off_ml: float) -> float:
    return math.hypot(off_ml, _spread(tool, steps))


def _at_a_time(step_ml: float, grain_ml: float) -> int:
    return max(1, math.ceil(grain_ml / step_ml - _SLACK))


def _whole(tool: Tool, low_ml: float, high_ml: float, wanted_ml: float, grain_ml: float) -> Iterator[Option]:
    step = tool.step_ml
    first, last = max(0, math.ceil(low_ml / step - _SLACK)), math.floor(high_ml / step + _SLACK)
    stride = _at_a_time(step, grain_ml)
    if stride > 1:
        nearest = math.floor(wanted_ml / step + 0.5 + _SLACK)
        first += (nearest - first) % stride
    for count in range(first, last + 1, stride):
        yield Option(count * step, ((tool, count),) if count else ())


def _with_finer(tool: Tool, finer: Tool, low_ml: float, high_ml: float, grain_ml: float) -> Iterator[Option]:
    step, small = tool.step_ml, finer.step_ml
    stride = _at_a_time(small, grain_ml)
    first = max(0, math.floor(low_ml / step) - 1)
    for count in range(first, math.floor(high_ml / step + _SLACK) + 1):
        base = count * step
        least = max(1, math.ceil((low_ml - base) / small - _SLACK))
        most = min(math.floor((high_ml - base) / small + _SLACK), math.ceil(step / small - _SLACK) - 1)
        for fine in range(least + (-least) % stride, most + 1, stride):
            counts = ((tool, count), (finer, fine)) if count else ((finer, fine),)
            yield Option(base + fine * small, counts)
