"""What can be measured, against a list made by counting every tool up; brute force has the search's own."""

from __future__ import annotations

from fractions import Fraction

import pytest

from recipes.book import Tool
from recipes.options import options

SCOOP = Tool("scoop", "scoop", "scoop", "scoop", "scoops", 18.0, Fraction(1, 2))
SPOON = Tool("spoon", "spoon", "scoop", "spoon", "spoons", 2.5, Fraction(1, 2))
THIMBLE = Tool("thimble", "thimble", "jigger", "ml", "ml", 1.0, Fraction(1), 30.0)
JUG = Tool("jug", "jug", "jug", "ml", "ml", 1.0, Fraction(1, 10))


def counted_up(low: Fraction, high: Fraction) -> dict[Fraction, tuple[int, str]]:
    """Half scoops of 9 ml; a thimble alone up to 30 ml; half scoops and less than one of them with either of
    the others. Each amount with how handy it is (0: scoop alone, 1: one reading, 2: two tools)."""
    found: dict[Fraction, tuple[int, str]] = {}

    def put(ml: Fraction, rank: int, tools: str) -> None:
        if low <= ml <= high and (ml not in found or rank < found[ml][0]):
            found[ml] = (rank, tools)

    for halves in range(20):
        put(Fraction(9 * halves), 0, "scoop" if halves else "")
        for drops in range(1, 9):
            put(Fraction(9 * halves + drops), 2, "scoop thimble" if halves else "thimble")
        for halves_of_spoon in range(1, 8):
            added = Fraction(5, 4) * halves_of_spoon
            put(9 * halves + added, 2, "scoop spoon" if halves else "spoon")
    for ml in range(1, 31):
        put(Fraction(ml), 1, "thimble")
    return found


@pytest.mark.parametrize(("low", "high"), [(0, 12), (20, 40), (31, 60), (26.5, 30.25)])
def test_every_amount_is_there_once_and_the_handiest_way(low: float, high: float) -> None:
    expected = counted_up(Fraction(low), Fraction(high))
    found = options((SCOOP, THIMBLE, SPOON), low, high, 40.0)
    assert [option.ml for option in found] == pytest.approx([float(ml) for ml in sorted(expected)])
    for option, (ml, (rank, tools)) in zip(found, sorted(expected.items()), strict=True):
        assert sum(tool.step_ml * count for tool, count in option.counts) == pytest.approx(float(ml))
        assert option.reaches_beyond(SCOOP) is (rank > 0)
        assert len(option.counts) == len(tools.split())
        if rank < 2:
            assert " ".join(tool.id for tool, _ in option.counts) == tools


def test_steps_that_nobody_tastes_come_several_at_a_time_from_the_nearest() -> None:
    """1 % of 120 ml is 1.2 ml: twelve steps of a tenth, counted from 120 ml; no finer tool is reached for."""
    found = options((JUG, THIMBLE), 117, 123, 120.0)
    assert [option.ml for option in found] == pytest.approx([117.6, 118.8, 120.0, 121.2, 122.4])
    assert not any(option.reaches_beyond(JUG) for option in found)
