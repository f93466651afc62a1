"""Everything that can be measured, tried: the reference for the search, slow and plain."""

from __future__ import annotations

import math
from itertools import product

from recipes.aim import Aim
from recipes.balance.load import Load, settle
from recipes.book import Taste
from recipes.kitchen import Kitchen
from recipes.modifiers import Part
from recipes.options import Option, options
from recipes.search import Limits, weight


class TooMany(Exception):
    """More combinations than brute force was allowed."""


def score(kitchen: Kitchen, target: Aim, taste: Taste, chosen: dict[Part, Option], limits: Limits) -> float:
    """J as written down in recipes.search, reckoned anew; infinite over a limit."""
    load = Load()
    for part, option in chosen.items():
        load = load.plus(part.unit, option.ml)
    settled = settle(load, kitchen.plan.melt_share)
    if settled.filled_ml > limits.room_ml + 1e-6 or load.unmelted_ml > limits.vessel_ml + 1e-6:
        return math.inf
    wanted = dict(zip(kitchen.plan.parts, target.wanted_ml, strict=True))
    if kitchen.plan.top_up is not None:
        wanted[kitchen.plan.top_up] = target.top_up_ml
    total = taste.fill * (settled.liquid_ml / target.settled.liquid_ml - 1) ** 2
    for part, option in chosen.items():
        total += taste.second_tool * any(tool.id != part.tool.id for tool, _ in option.counts)
        if part is kitchen.plan.shots or wanted[part] < 0.05:
            continue
        off = option.ml / wanted[part]
        if part.role not in ("ice", "top_up"):
            off *= target.settled.liquid_ml / settled.liquid_ml
        total += weight(taste, part) * (off - 1) ** 2
    return total


def brute(kitchen: Kitchen, target: Aim, taste: Taste, limits: Limits, most: int) -> tuple[float, int]:
    """The least J over all amounts a quarter, and more than a step, either side of the wanted one."""
    rows: list[list[tuple[Part, Option]]] = []
    wanted = [*zip(kitchen.plan.parts, target.wanted_ml, strict=True)]
    if kitchen.plan.top_up is not None:
        wanted.append((kitchen.plan.top_up, target.top_up_ml))
    for part, ml in wanted:
        if part is kitchen.plan.shots:
            rows.append([(part, Option(ml, ()))])
        elif ml < 0.05:
            rows.append([(part, Option(0.0, ()))])
        else:
            span = max(0.25 * ml, 1.01 * part.tools[-1].step_ml)
            rows.append(
                [(part, option) for option in options(part.tools, max(0.0, ml - span), ml + span, ml)]
            )
    size = math.prod(len(row) for row in rows)
    if size > most:
        raise TooMany(str(size))
    return min(score(kitchen, target, taste, dict(chosen), limits) for chosen in product(*rows)), size
