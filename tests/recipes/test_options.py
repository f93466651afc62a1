"""What can be measured, against a list made by counting every tool up; brute force has the search's own."""

from __future__ import annotations

from fractions import Fraction

import pytest

from recipes.balance.load import Load
from recipes.book import Ingredient, Tool
from recipes.building.options import options, pays
from recipes.building.plan import Part

SCOOP = Tool("scoop", "scoop", "scoop", "scoop", "scoops", 18.0, Fraction(1, 2))
SPOON = Tool("spoon", "spoon", "scoop", "spoon", "spoons", 2.5, Fraction(1, 2))
THIMBLE = Tool("thimble", "thimble", "jigger", "ml", "ml", 1.0, Fraction(1), 30.0, 5.0)
DROPS = Tool("drops", "drops", "jug", "ml", "ml", 1.0, Fraction(1, 10))
JIGGER = Tool("jigger", "jigger", "jigger", "ml", "ml", 1.0, Fraction(5), 60.0)
JUG = Tool("jug", "jug", "jug", "ml", "ml", 1.0, Fraction(10))

POWDER = Ingredient(
    id="powder", name="Powder", short="Powder", kind="powder", brand="", density=0.5, body_density=0.5,
    sugars=0, dry=1, caffeine=0, energy_kj=0, energy_kcal=0, allergens=(), serving_c=20, hot_c=None,
    price_per_kg=0, hold_s=None,
)  # fmt: skip


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


def part(*tools: Tool, jug: Tool | None = None, role: str = "part") -> Part:
    """A part of a powder measured with these tools, the recipe's own first."""
    return Part(POWDER, tools, 20.0, role, 0.0, 0.0, Load(), jug)


@pytest.mark.parametrize(("low", "high"), [(0, 12), (20, 40), (31, 60), (26.5, 30.25)])
def test_every_amount_is_there_once_and_the_handiest_way(low: float, high: float) -> None:
    """13.5 ml lie midway between one and two half scoops, a third off: there the other tools are listed
    too.
    """
    expected = counted_up(Fraction(low), Fraction(high))
    found = options(part(SCOOP, THIMBLE, SPOON), low, high, 13.5)
    assert [option.ml for option in found] == pytest.approx([float(ml) for ml in sorted(expected)])
    for option, (ml, (rank, tools)) in zip(found, sorted(expected.items()), strict=True):
        assert sum(tool.step_ml * count for tool, count in option.counts) == pytest.approx(float(ml))
        assert len(option.counts) == len(tools.split())
        if rank < 2:
            assert " ".join(tool.id for tool, _ in option.counts) == tools


def test_a_second_tool_is_listed_only_where_it_pays() -> None:
    """b is what an amount is off, σ the spread of hands, E = √(b² + Σσ²); powder may be 12 % off.

    23 ml with half scoops of 9: 27 are 4 off, E = 4.2 ml, 18 %. 18 with the thimble's 5, at its mark: σ is
    4 % of 18 and 1 ml, E = 1.2 ml, 5 %: it pays. 19 ml: 18 are 1 off, E = 1.2 ml, 6.5 %: it does not. Nor
    does it for 16 ml, where 18 leave 13 %: half a scoop (σ 12 % of 9) and 7 between marks (σ 1.7) still
    leave 12.4 %."""
    assert pays(part(SCOOP, THIMBLE), 23.0)
    assert not pays(part(SCOOP, THIMBLE), 16.0)
    assert not pays(part(SCOOP, THIMBLE), 19.0)
    assert {len(option.counts) for option in options(part(SCOOP, THIMBLE), 10, 30, 19.0)} == {1}


def test_what_a_jigger_does_not_hold_at_once_is_the_jugs() -> None:
    found = options(part(JIGGER, jug=JUG), 40, 100, 70.0)
    assert [(option.counts[0][0].id, option.ml) for option in found] == [
        ("jigger", 40), ("jigger", 45), ("jigger", 50), ("jigger", 55), ("jigger", 60),
        ("jug", 70), ("jug", 80), ("jug", 90), ("jug", 100),
    ]  # fmt: skip


def test_steps_that_nobody_tastes_come_several_at_a_time_from_the_nearest() -> None:
    """1 % of 120 ml is 1.2 ml: twelve steps of a tenth, counted from 120 ml; no finer tool is reached for."""
    found = options(part(DROPS, THIMBLE), 117, 123, 120.0)
    assert [option.ml for option in found] == pytest.approx([117.6, 118.8, 120.0, 121.2, 122.4])
    assert {option.counts[0][0].id for option in found} == {"drops"}
