"""Measures of the bar: tools, what they hold, and rounding to what a hand can measure.

How an amount is written in a recipe, always as text in quotes:

- in a tool's own words, as shop.toml names them: ``"2 scoops"``, ``"1/2 scoop"``, ``"2 strokes"``,
  ``"7 cubes"``, ``"1 shot"``, ``"1 ladle"``;
- in a unit of volume: ``"14 ml"``, ``"1 fl oz"`` (ml, cl, l, tsp, tbsp, fl oz, cup), poured from the jug
  unless the step names another ``tool``;
- in a unit of mass: ``"18 g"`` (g, kg, oz, lb), turned into millilitres by the ingredient's density.

Numbers are decimals or fractions: 2, 0.5, 1/2, 1 1/2 (see ``recipes.units``).
"""

from __future__ import annotations

import math
from collections.abc import Mapping

from recipes.book import Ingredient, Measured, Tool
from recipes.model import Amount
from recipes.units import MASS_G, VOLUME_ML, NotAQuantity, quantity

COUNTED = ("scoop", "pump", "cube", "ladle", "shot", "ice scoop")
"""Kinds of tools whose units are counted by hand, one after another, and so drawn as tallies."""

_TIE = 1e-9
"""Slack that keeps a tie a tie when it was reached through floating point."""


def measured(text: str, tools: Mapping[str, Tool], tool: str | None, density: float) -> Measured:
    """An amount as written, as a tool and millilitres. Raises ``NotAQuantity`` in plain words.

    ``tool`` is the one the step names, or None; ``density`` is the ingredient's in g/ml.
    """
    amount, unit = quantity(text)
    if unit in VOLUME_ML or unit in MASS_G:
        chosen = tools[tool] if tool is not None else _jug(tools)
        volume = amount * VOLUME_ML[unit] if unit in VOLUME_ML else amount * MASS_G[unit]
        return Measured(chosen.id, float(volume) if unit in VOLUME_ML else float(volume) / density)
    named = [each for each in tools.values() if unit in (each.one, each.many)]
    if tool is not None:
        named = [each for each in named if each.id == tool]
    if not named:
        words = ", ".join(dict.fromkeys([each.many for each in tools.values()] + [*VOLUME_ML, *MASS_G]))
        raise NotAQuantity(f"{unit!r} is not a measure of this bar: {words}")
    if len(named) > 1:
        raise NotAQuantity(f"{unit!r} may be {' or '.join(each.id for each in named)}: name the step's tool")
    return Measured(named[0].id, float(amount) * named[0].unit_ml)


def _jug(tools: Mapping[str, Tool]) -> Tool:
    """The tool for a free pour. The reader has seen to it that there is one."""
    return next(tool for tool in tools.values() if tool.kind == "jug")


def nearest(wanted: float, smallest: float) -> float:
    """``wanted`` rounded to a multiple of ``smallest``, ties up; both in the same unit, neither negative."""
    return math.floor(wanted / smallest + 0.5 + _TIE) * smallest


def amount(tool: Tool, ingredient: Ingredient, wanted_ml: float) -> Amount:
    """The nearest amount that ``tool`` can measure; its count is 0 when even the smallest is too much."""
    count = nearest(wanted_ml / tool.unit_ml, tool.least)
    return counted(tool, ingredient, count, wanted_ml)


def counted(tool: Tool, ingredient: Ingredient, count: float, wanted_ml: float) -> Amount:
    """``count`` units of ``tool``, beside what was wanted."""
    volume = count * tool.unit_ml
    error = 100 * (volume - wanted_ml) / wanted_ml if wanted_ml > 0 else 0.0
    return Amount(
        tool=tool.id,
        kind=tool.kind,
        unit=tool.one if count <= 1 else tool.many,
        count=count,
        volume_ml=round(volume, 4),
        mass_g=round(volume * ingredient.density, 4),
        wanted_ml=round(wanted_ml, 4),
        error_pct=round(error, 4) + 0.0,
    )


def figure(number: float) -> str:
    """A count for people: 2, ½, 1⅔, 2.2."""
    whole, part = divmod(number, 1)
    marks = {0.25: "¼", 0.3333: "⅓", 0.5: "½", 0.6667: "⅔", 0.75: "¾"}
    if (near := round(part, 4)) in marks:
        return f"{int(whole) or ''}{marks[near]}"
    return f"{number:.0f}" if part == 0 else f"{number:g}"
