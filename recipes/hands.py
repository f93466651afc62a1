"""What measuring costs a pair of hands, and how well a hand repeats it.

Seconds are work at a steady pace with tools within reach, put together from the elements of MTM-1 (card of
2019; 1 TMU = 0.036 s) and an allowance of 15 per cent; no stopwatch has been held to them, so a book may
write its own (``[hands]`` in shop.toml). Spreads are common practice: weigh ten fills to know better.

What counts against a choice is only what is *beyond* a plain measure: a half scoop, a reading between marks,
a second filling, a second tool. The seconds of whole scoops and strokes go with the amount of drink; if they
counted, the drink would be made weaker to save a scoop.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

LINE_ML = 5.0
"""What a jigger has lines for, ml (common practice): 22½ or 16 ml is fussy however fine its marks."""

WHOLE_SPREAD = {"scoop": 0.04, "pump": 0.03, "ladle": 0.04, "shot": 0.10, "cube": 0.08, "ice scoop": 0.11}
"""Spread of one whole unit as a share of it: levelled scoop, primed pump, shot, cube (common practice); an
ice scoop by its voids, 0.33 to 0.46 of random packing."""

HALF_SPREAD = {"scoop": 0.12, "pump": 0.175, "ladle": 0.12, "ice scoop": 0.15}
"""Spread of half a unit as a share of the half: a scoop halved by eye, a stroke stopped by feel."""

LESS_SPREAD = 0.20
"""Spread of a quarter, a third or less as a share of it: no hand repeats those."""

AT_MARK_ML = {"jigger": 1.0, "jug": 5.0}
"""Spread of a reading at a mark at eye level, ml: about a millimetre of level in bores of 40 and 80 mm."""

BETWEEN_MARKS = 1 / 3
"""Spread of a reading between marks, as a share of their distance."""

Fuss = Literal["two tools", "part measure", "between marks", "over the brim"]
"""What a hand finds fussy about a measure: two tools for one ingredient; a quarter or less of a unit; a
reading that stands at no mark; more than the tool holds at once."""

ToolKind = Literal["scoop", "pump", "jigger", "shot", "cube", "ice scoop", "ladle", "jug"]
"""What a tool is; a jug and a jigger are read in millilitres; ``cube`` counts pieces of ice."""


@dataclass(frozen=True, slots=True)
class Hands:
    """Seconds of hands for each act, and ``patience``: the seconds that are worth it to bring one ingredient
    that is ten per cent off exactly to the recipe.

    ``scoop`` levelled, ``half_scoop`` with its trims; ``pump`` the reach and ``stroke`` each stroke,
    ``half_stroke``; ``jigger`` filled to a mark and poured, ``between_marks`` more, ``second_fill`` each
    further filling; ``jug`` filled to a mark at eye level and poured; ``other_tool`` laying one away and
    taking another; ``tongs`` and each ``cube``; ``ice_scoop``, ``ladle``; ``shot`` started and poured;
    ``steam`` besides the time that the milk takes to warm."""

    scoop: float = 3.6
    half_scoop: float = 4.2
    pump: float = 1.25
    stroke: float = 0.94
    half_stroke: float = 1.6
    jigger: float = 6.3
    between_marks: float = 2.1
    second_fill: float = 5.5
    jug: float = 14.9
    other_tool: float = 2.9
    tongs: float = 1.8
    cube: float = 1.4
    ice_scoop: float = 5.6
    ladle: float = 3.6
    shot: float = 6.2
    steam: float = 13.5
    patience: float = 8.0

    @property
    def per_second(self) -> float:
        """What a second costs in squared relative error."""
        return 0.01 / self.patience


HOUSE = Hands()
"""The seconds of a book that writes none."""


@dataclass(frozen=True, slots=True)
class Measure:
    """One measuring act: ``count`` units of a tool of this ``kind``; a unit holds ``unit_ml``, marks stand
    ``mark_ml`` apart and one filling takes ``reads_ml`` (jigger and jug, else None)."""

    kind: ToolKind
    count: float
    unit_ml: float
    mark_ml: float = 1.0
    reads_ml: float | None = None

    @property
    def is_read(self) -> bool:
        """Whether it is read at marks."""
        return self.kind in ("jigger", "jug")

    @property
    def at_mark(self) -> bool:
        """Whether the reading stands at a mark."""
        times = self.count / self.mark_ml
        return abs(times - round(times)) < 1e-6

    @property
    def fills(self) -> int:
        """How many times the tool is filled to its brim or its reading."""
        return 1 if self.reads_ml is None else max(1, math.ceil(self.count / self.reads_ml - 1e-9))

    @property
    def part(self) -> Fraction:
        """What is left over whole units."""
        return Fraction(self.count).limit_denominator(100) % 1


def seconds(hands: Hands, measure: Measure) -> float:
    """Seconds of hands that a measuring act takes; 0 for nothing."""
    if measure.count <= 0:
        return 0.0
    whole, part = measure.count - float(measure.part), measure.part
    if measure.is_read:
        each = hands.jigger if measure.kind == "jigger" else hands.jug
        more = hands.second_fill if measure.kind == "jigger" else hands.jug
        return each + (measure.fills - 1) * more + (0.0 if measure.at_mark else hands.between_marks)
    if measure.kind == "pump":
        return hands.pump + whole * hands.stroke + (hands.half_stroke if part else 0.0)
    if measure.kind == "cube":
        return hands.tongs + measure.count * hands.cube
    if measure.kind == "shot":
        # Started and poured once, however many run.
        return hands.shot
    each = {"scoop": hands.scoop, "ice scoop": hands.ice_scoop, "ladle": hands.ladle}[measure.kind]
    trims = hands.half_scoop if measure.kind == "scoop" else each
    return whole * each + (trims if part else 0.0)


def beyond(hands: Hands, measure: Measure) -> float:
    """Seconds of hands beyond a plain measure of as much: what a half, an odd reading, a further filling
    cost.
    """
    if measure.count <= 0:
        return 0.0
    part = float(measure.part)
    if measure.is_read:
        more = hands.second_fill if measure.kind == "jigger" else hands.jug
        return (measure.fills - 1) * more + (0.0 if measure.at_mark else hands.between_marks)
    if not part:
        return 0.0
    if measure.kind == "pump":
        return max(0.0, hands.half_stroke - part * hands.stroke)
    if measure.kind == "scoop":
        return max(0.0, hands.half_scoop - part * hands.scoop)
    if measure.kind == "ladle":
        return (1 - part) * hands.ladle
    return (1 - part) * hands.ice_scoop if measure.kind == "ice scoop" else 0.0


def spread_ml(measure: Measure) -> float:
    """The standard deviation of a measuring act in ml; independent fills add up as √n."""
    if measure.count <= 0:
        return 0.0
    if measure.is_read:
        at_mark = AT_MARK_ML[measure.kind]
        if measure.at_mark:
            return at_mark * math.sqrt(measure.fills)
        return max(1.3 * at_mark, BETWEEN_MARKS * measure.mark_ml) * math.sqrt(measure.fills)
    part = float(measure.part)
    each = WHOLE_SPREAD[measure.kind]
    of_part = 0.0
    if part:
        of_part = part * (HALF_SPREAD.get(measure.kind, LESS_SPREAD) if part == 0.5 else LESS_SPREAD)
    return measure.unit_ml * math.sqrt((measure.count - part) * each * each + of_part * of_part)


def plain_spread_ml(measure: Measure) -> float:
    """The spread of as much measured plainly: read at a mark, or in whole units."""
    if measure.is_read:
        return AT_MARK_ML[measure.kind] * math.sqrt(measure.fills)
    return measure.unit_ml * WHOLE_SPREAD[measure.kind] * math.sqrt(measure.count)


def _is_round(measure: Measure) -> bool:
    """Whether a jigger's reading is one that it has a line for: its mark, and a multiple of ``LINE_ML``."""
    times = measure.count / LINE_ML
    return measure.at_mark and abs(times - round(times)) < 1e-6


def fuss(measure: Measure) -> Fuss | None:
    """What is fussy about one measuring act by itself, if anything. Half units are what hands are used to."""
    if measure.is_read:
        if measure.kind == "jigger" and not _is_round(measure):
            return "between marks"
        return "over the brim" if measure.fills > 1 else None
    return "part measure" if measure.part not in (0, Fraction(1, 2)) else None
