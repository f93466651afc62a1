"""Everything that can be measured, tried: the reference for the search, slow and plain."""

from __future__ import annotations

import math
from itertools import product

import pytest

from recipes.balance.load import Load, settle
from recipes.book import Taste
from recipes.building.drink import PlannedDrink
from recipes.building.options import GRAIN, Option, options
from recipes.building.plan import Part
from recipes.building.search import Limits, weight
from recipes.building.target import Target
from recipes.hands import AT_MARK_ML, WHOLE_SPREAD, beyond, spread_ml


class TooMany(Exception):
    """More combinations than brute force was allowed."""


def effort(planned: PlannedDrink, part: Part, option: Option, wanted_ml: float, weighs: float) -> float:
    """What an option costs beyond a plain measure, reckoned anew from the seconds and spreads of hands."""
    if not option.counts or part.written_ml == pytest.approx(option.ml, abs=1e-6):
        return 0.0
    hands, total = planned.book.hands, 0.0
    for tool, steps in option.counts:
        count = steps * float(tool.smallest)
        measure = tool.measure(count)
        at_best = AT_MARK_ML[tool.kind] * math.sqrt(measure.fills) if measure.is_read else (
            tool.unit_ml * WHOLE_SPREAD[tool.kind] * math.sqrt(count)
        )  # fmt: skip
        wider = max(0.0, spread_ml(measure) ** 2 - at_best**2)
        total += 0.01 / hands.patience * beyond(hands, measure) + weighs * wider / wanted_ml**2
    own = {part.tool.id, part.jug.id if part.jug else None}
    if len(option.counts) > 1 or option.counts[0][0].id not in own:
        total += 0.01 / hands.patience * hands.other_tool
    return total


def score(
    planned: PlannedDrink, target: Target, taste: Taste, chosen: dict[Part, Option], limits: Limits
) -> float:
    """J as written down in recipes.building.search, reckoned anew; infinite over a limit or off its sugar
    level.
    """
    load = Load()
    for part, option in chosen.items():
        load = load.plus(part.unit, option.ml)
    settled = settle(load, planned.plan.melt_share)
    if settled.filled_ml > limits.room_ml + 1e-6 or load.unmelted_ml > limits.vessel_ml + 1e-6:
        return math.inf
    wanted = dict(zip(planned.plan.parts, target.wanted_ml, strict=True))
    if planned.plan.top_up is not None:
        wanted[planned.plan.top_up] = target.top_up_ml
    total = taste.fill * (settled.liquid_ml / target.settled.liquid_ml - 1) ** 2
    for part, option in chosen.items():
        if part.tool.kind == "shot" or wanted[part] < 0.05:
            continue
        total += effort(planned, part, option, wanted[part], weight(taste, part))
        off = option.ml / wanted[part]
        if part.role not in ("ice", "top_up"):
            off *= target.settled.liquid_ml / settled.liquid_ml
        total += weight(taste, part) * (off - 1) ** 2
        if part.role == "ice":
            total += 0.01 * (option.ml < wanted[part] - part.tool.step_ml / 2 - 1e-6)
        if part.role == "sweetener":
            # Within half of what its tool tells apart; half a step short is a step short.
            step = max(1, math.ceil(GRAIN * wanted[part] / part.tool.step_ml - 1e-9)) * part.tool.step_ml
            half = step / 2
            total += 0.005 * (option.ml != math.floor(wanted[part] / step + 0.5 + 1e-12) * step)
            over = option.ml - wanted[part] * settled.liquid_ml / target.settled.liquid_ml
            if not -half < over <= half + 1e-6:
                return math.inf
    return total


def brute(
    planned: PlannedDrink, target: Target, taste: Taste, limits: Limits, most: int
) -> tuple[float, int]:
    """The least J over all amounts a quarter, and more than a step, either side of the wanted one."""
    rows: list[list[tuple[Part, Option]]] = []
    wanted = [*zip(planned.plan.parts, target.wanted_ml, strict=True)]
    if planned.plan.top_up is not None:
        wanted.append((planned.plan.top_up, target.top_up_ml))
    for part, ml in wanted:
        if part.tool.kind == "shot":
            rows.append([(part, Option(ml, ()))])
        elif ml < 0.05:
            rows.append([(part, Option(0.0, ()))])
        else:
            span = max(0.25 * ml, 1.01 * part.tool.step_ml)
            row = [(part, option) for option in options(part, max(0.0, ml - span), ml + span, ml)]
            if part.role == "ice":
                # The nearest or less, and never none.
                most_ice = max(part.tool.step_ml, ml + part.tool.step_ml / 2) + 1e-6
                row = [(part, option) for part, option in row if 0 < option.ml <= most_ice]
            rows.append(row)
    size = math.prod(len(row) for row in rows)
    if size > most:
        raise TooMany(str(size))
    return min(score(planned, target, taste, dict(chosen), limits) for chosen in product(*rows)), size
