"""What a figure about an ingredient or a tool can be: wide enough for every bar, too narrow for a slip.

Each row says why it ends where it does: physics where there is any, else common practice of the trade.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from recipes.book import Kind
from recipes.hands import ToolKind


@dataclass(frozen=True, slots=True)
class Bounds:
    """From ``low`` to ``high``, both accepted, in the unit of the figure; ``why`` is told with a fault."""

    low: float
    high: float
    why: str


DENSITY: Mapping[Kind, Bounds] = {
    "powder": Bounds(0.1, 1.5, "heaped flakes to packed sugar, by the level scoop"),
    "syrup": Bounds(1.0, 1.6, "water is 1, honey 1.4, molasses 1.5"),
    "liquid": Bounds(0.3, 1.5, "whipped cream is 0.4, water 1, purée 1.1"),
    "tea": Bounds(0.9, 1.5, "water is 0.96 when it boils, a sweet concentrate 1.3"),
    "milk": Bounds(0.3, 1.5, "milk foam is 0.4, milk 1.03, condensed milk 1.3"),
    "espresso": Bounds(0.9, 1.5, "coffee without its crema is little more than water"),
    "ice": Bounds(0.3, 0.95, "from shaved ice, mostly air, to a solid cube, 0.917"),
    "topping": Bounds(0.3, 1.6, "from whipped cream to sweet beans without gaps"),
}
"""g/ml as scooped, pumped or poured. Water at 100 °C is 0.958 (IAPWS R6-95), sucrose solution of 67 % is 1.33
at 20 °C (ICUMSA); honey 1.39 to 1.44, foams and heaps are common practice."""

BODY: Mapping[Kind, Bounds] = {
    "ice": Bounds(0.85, 0.95, "ice is 0.917, less with air in it"),
    "topping": Bounds(0.3, 1.6, "from whipped cream to candied fruit"),
}
"""g/ml of one piece, where pieces have gaps between them. Ice Ih at 0 °C is 0.9167 (IAPWS R10-06)."""

_POURED = "what is poured is neither frozen nor boiling"
_STORED = "from the freezer to the kettle"

SERVING: Mapping[Kind, Bounds] = {
    "powder": Bounds(-30, 100, _STORED),
    "syrup": Bounds(-5, 100, _POURED),
    "liquid": Bounds(-5, 100, _POURED),
    "tea": Bounds(-5, 100, _POURED),
    "milk": Bounds(-5, 100, _POURED),
    "espresso": Bounds(-5, 100, _POURED),
    "ice": Bounds(-30, 0, "above 0 °C there is no ice"),
    "topping": Bounds(-30, 100, _STORED),
}
"""°C at the bar. Sweetened liquids freeze a few degrees below 0 °C (Raoult's law); freezers stand at -18 °C
(Codex CAC/RCP 8-1976), with room below it."""

HOLDS: Mapping[ToolKind, Bounds] = {
    "scoop": Bounds(0.5, 250, "from a matcha spoon to a cup"),
    "pump": Bounds(0.5, 60, "one stroke of a pump"),
    "shot": Bounds(10, 120, "from a ristretto to a long double"),
    "cube": Bounds(1, 120, "one cube, not a scoop of them: crushed ice is measured with a scoop or in g"),
    "ice scoop": Bounds(30, 2000, "from a bar scoop to a shovel, struck level"),
    "ladle": Bounds(5, 250, "from a spoon to a soup ladle"),
    "jigger": Bounds(1, 250, "as much as is read in one hand"),
    "jug": Bounds(20, 2000, "as much as a hand lifts and pours"),
}
"""ml that one measure holds; of a jigger or jug, how much it is read up to. Common practice."""

PARTS: tuple[Fraction, ...] = (Fraction(1), Fraction(1, 2), Fraction(1, 3), Fraction(1, 4))
"""What part of a scoop, stroke, shot, cube or ladle a hand can measure. Less than a quarter nobody sees, and
from more than one the single measure could not be taken. Common practice."""

FINEST_ML = 0.5
"""The finest marks of a jigger or jug, ml: a syringe's. Common practice."""

COARSEST_ML = 100
"""The coarsest marks of one that does not say how much it holds, ml."""


def parts_in_words() -> str:
    """The parts of a measure, as they are written."""
    return "1, 1/2, 1/3 or 1/4"
