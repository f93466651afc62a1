"""What hands do, against figures put together elsewhere: MTM-1 elements, spreads, and what a guest may
notice.
"""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from recipes.book import Tool
from recipes.hands import HOUSE, Measure, beyond, fuss, seconds, spread_ml

TMU_S, ALLOWANCE = 0.036, 1.15
"""One TMU in seconds (MTM-1 card); 15 per cent of allowance, common practice beside the ILO's 5 + 4 + 2."""


def work_s(tmu: float, process_s: float = 0.0) -> float:
    """Seconds of work: hands with their allowance, and what runs by itself."""
    return tmu * TMU_S * ALLOWANCE + process_s


SCOOP = Tool("scoop", "scoop", "scoop", "scoop", "scoops", 20.0, Fraction(1, 2))
PUMP = Tool("pump", "pump", "pump", "stroke", "strokes", 7.0, Fraction(1))
JIGGER = Tool("jigger", "jigger", "jigger", "ml", "ml", 1.0, Fraction(5), 60.0)
JUG = Tool("jug", "jug", "jug", "ml", "ml", 1.0, Fraction(10))
CUBE = Tool("cube", "cube", "cube", "cube", "cubes", 27.0, Fraction(1))
ICE_SCOOP = Tool("ice", "ice", "ice scoop", "ice scoop", "ice scoops", 109.0, Fraction(1, 2))


@pytest.mark.parametrize(
    ("measure", "tmu", "process_s"),
    [
        # Dip, level, carry, tip: M30B 13.2, 2 M10B 13.8, P1SE 5.6, M10C 8.0, EF 7.3, M30C 15.1, P1SE 5.6,
        # T90S 5.4, 2 M4B 7.6, T90S 5.4 = 87.0 TMU.
        (SCOOP.measure(1), 87.0, 0),
        (SCOOP.measure(2), 2 * 87.0, 0),
        # Three trims of T30S, M2A, EF in place of the levelling: 102.4 TMU.
        (SCOOP.measure(0.5), 102.4, 0),
        # Reach 30.2 TMU, and M8B, APA, M8B = 22.6 for each stroke.
        (PUMP.measure(1), 30.2 + 22.6, 0),
        (PUMP.measure(4), 30.2 + 4 * 22.6, 0),
        (PUMP.measure(6), 30.2 + 6 * 22.6, 0),
        # 158.4 TMU of which 1.7 s are pouring at 25 ml/s: net 5.70 s, work 6.3 s.
        (JIGGER.measure(30), 158.4 - 1.7 / TMU_S, 1.7),
        # 50.0 TMU more between marks: 2.1 s.
        (JIGGER.measure(33), 158.4 - 1.7 / TMU_S + 50.0, 1.7),
        # 383.3 TMU of which 6.5 s are pouring at 40 ml/s: net 13.8 s, work 14.9 s.
        (JUG.measure(200), 383.3 - 6.5 / TMU_S, 6.5),
        # Tongs 43.2 TMU, and R20C, G4A, M30B, RL1 = 33.9 a cube.
        (CUBE.measure(2), 43.2 + 2 * 33.9, 0),
        (CUBE.measure(8), 43.2 + 8 * 33.9, 0),
        # 137.9 TMU of which 0.5 s are pouring.
        (ICE_SCOOP.measure(1), 137.9 - 0.5 / TMU_S, 0.5),
    ],
)  # fmt: skip
def test_seconds_are_those_of_the_elements(measure: Measure, tmu: float, process_s: float) -> None:
    """MTM-1 card (2019), composed; to a fifteenth of a second of each act, which is how finely they are
    told.
    """
    assert seconds(HOUSE, measure) == pytest.approx(work_s(tmu, process_s), abs=0.07 * max(1, measure.count))


def test_an_ice_scoop_beats_tongs_from_three_cubes() -> None:
    scoop = seconds(HOUSE, ICE_SCOOP.measure(1))
    assert seconds(HOUSE, CUBE.measure(2)) < scoop < seconds(HOUSE, CUBE.measure(3))


def test_whole_scoops_and_strokes_cost_nothing_beyond_themselves() -> None:
    for measure in (
        SCOOP.measure(3),
        PUMP.measure(7),
        JIGGER.measure(60),
        JUG.measure(230),
        CUBE.measure(14),
    ):
        assert beyond(HOUSE, measure) == 0
        assert fuss(measure) is None
    assert beyond(HOUSE, SCOOP.measure(1.5)) == pytest.approx(4.2 - 3.6 / 2)
    assert beyond(HOUSE, JIGGER.measure(90)) == pytest.approx(5.5)  # a second filling, bottle in hand


@pytest.mark.parametrize(
    ("measure", "kind"),
    [
        (SCOOP.measure(2.25), "part measure"),
        (SCOOP.measure(1.5), None),
        (JIGGER.measure(22.5), "between marks"),
        (JIGGER.measure(97.5), "between marks"),
        (JIGGER.measure(90), "over the brim"),
        (JUG.measure(180), None),
    ],
)  # fmt: skip
def test_what_is_fussy_has_a_name(measure: Measure, kind: str | None) -> None:
    assert fuss(measure) == kind


def rms(off_ml: float, *measures: Measure) -> float:
    """E = √(b² + Σσ²): what the amount is off, and each act's independent spread."""
    return math.sqrt(off_ml**2 + sum(spread_ml(measure) ** 2 for measure in measures))


def test_spread_adds_up_as_the_root_of_the_squares() -> None:
    """Common practice: a level scoop 4 %, half of one 12 % of the half, a stroke 3 %; a jigger at its mark 1
    ml, between 5 ml marks a third of them."""
    # 16 ml with a 7 ml pump: 2 strokes are 2 ml short, and 2 ml more between marks still leave 1.73 ml.
    assert rms(-2, PUMP.measure(2)) == pytest.approx(2.02, abs=0.005)
    assert rms(0, PUMP.measure(2), JIGGER.measure(2)) == pytest.approx(1.69, abs=0.05)
    # 26 g wanted, a scoop of 8 g (20 ml at 0.4 g/ml): 3 scoops are 2 g short, 3½ are 2 g over.
    assert 0.4 * rms(-2 / 0.4, SCOOP.measure(3)) == pytest.approx(2.08, abs=0.005)
    assert 0.4 * rms(2 / 0.4, SCOOP.measure(3.5)) == pytest.approx(2.13, abs=0.01)
    # 33 ml with marks at 30 and 35: filled to 35, or poured between.
    assert rms(2, JIGGER.measure(35)) == pytest.approx(2.24, abs=0.005)
    assert rms(0, JIGGER.measure(33)) == pytest.approx(1.7, abs=0.05)
