"""Repeated weighings, against a worked control chart and Student's distribution itself."""

from __future__ import annotations

import math

import pytest

from recipes.weighing import T_975, weigh

# NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2, worked example (flow rates of ten batches);
# readings and limits of that page: centre 50.81, mean moving range 1.8778, 45.8159 to 55.8041.
BATCHES = (49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1)


def test_limits_are_those_of_the_handbooks_worked_example() -> None:
    chart = weigh(BATCHES)
    assert chart.mean == pytest.approx(50.81, abs=0.005)
    assert chart.low == pytest.approx(45.8159, abs=0.001)
    assert chart.high == pytest.approx(55.8041, abs=0.001)
    assert chart.outside == ()


@pytest.mark.parametrize("freedom", range(1, len(T_975) + 1))
def test_the_t_table_is_students_distribution(freedom: int) -> None:
    """Integrate the density (its textbook form) from 0 to the tabled point: 0.475 lies between."""
    norm = math.exp(math.lgamma((freedom + 1) / 2) - math.lgamma(freedom / 2)) / math.sqrt(freedom * math.pi)
    steps = 20_000
    width = T_975[freedom - 1] / steps
    area = sum(
        norm * (1 + ((n + 0.5) * width) ** 2 / freedom) ** (-(freedom + 1) / 2) * width for n in range(steps)
    )
    # Half a unit in the third decimal of t is at most 3e-5 of area where the density is below 0.06.
    assert area == pytest.approx(0.475, abs=4e-5)


def test_a_steady_hand() -> None:
    weighing = weigh([8.1, 8.0, 8.2, 8.1, 8.0, 8.1])
    assert weighing.verdict == "steady"
    assert weighing.mean == pytest.approx(48.5 / 6)
    assert weighing.low < 8.0
    assert weighing.high > 8.2


def test_one_heaped_scoop_stands_out_by_its_number() -> None:
    weighing = weigh([8.1, 8.0, 8.1, 8.0, 8.1, 8.0, 8.1, 8.0, 8.1, 8.0, 11.0])
    assert weighing.verdict == "not one process"
    assert weighing.outside == (11,)
    assert "Reading 11" in weighing.words


def test_readings_that_spread_are_not_steady() -> None:
    assert weigh([7.0, 8.2, 7.3, 8.6, 7.1, 8.4]).verdict == "wide"


def test_few_readings_ask_for_more() -> None:
    assert weigh([8.0, 8.1, 8.0]).words.startswith("2 more")


def test_how_many_are_enough_is_reckoned_by_students_t() -> None:
    """8.0 and 8.4 in turn: mean 8.2; ten of them have a standard deviation of 0.2 * sqrt(10/9) = 0.2108.

    2 % of the mean are 0.164. Of 8 readings the mean is known within 2.365 * 0.2108 / sqrt(8) = 0.176, of 9
    within 2.306 * 0.2108 / 3 = 0.162.
    """
    ten = weigh([8.0, 8.4] * 5)
    assert ten.spread == pytest.approx(0.2108, abs=0.0001)
    assert ten.needed == 9
    assert ten.enough.startswith("Enough")
    assert ten.margin == pytest.approx(2.262 * 0.2108 / math.sqrt(10), abs=0.0001)
    six = weigh([8.0, 8.4] * 3)
    assert six.needed is not None
    assert six.needed > 6
    assert str(six.needed) in six.enough


def test_there_is_one_verdict() -> None:
    """8.0 and 8.4 in turn spread by 2.6 % and 2.7 %: alike (4 % at most), but six are too few for 2 %.

    Six: deviation 0.2 * sqrt(6/5) = 0.2191, so the mean is known within 2.571 * 0.2191 / sqrt(6) = 0.230,
    2.8 % of 8.2. Of 9 within 2.306 * 0.2191 / 3 = 0.168, of 10 within 2.262 * 0.2191 / sqrt(10) = 0.157; 2 %
    are 0.164. So four more.
    """
    six = weigh([8.0, 8.4] * 3)
    assert (six.needed, six.verdict) == (10, "more readings")
    assert six.words.startswith("4 more: ")
    assert "2.8" in six.enough
    ten = weigh([8.0, 8.4] * 5)
    assert ten.verdict == "steady"
    assert ten.enough.startswith("Enough")
    for weighing in (six, weigh([10, 30] * 5), weigh([8.1, 8.0] * 5 + [11.0]), weigh([8.0, 8.1])):
        said = weighing.words + weighing.enough
        assert "taken over" not in said, "only a steady mean is to be taken over"
        assert "Steady" not in said
        assert "Enough: " not in said


def test_readings_too_far_apart_for_any_number_say_so() -> None:
    """A spread of 47 %: 2.042 * 47 / sqrt(100) = 9.6 % of the mean."""
    cubes = weigh([10, 30] * 5)
    assert cubes.needed is None
    assert "not even 100" in cubes.enough


def test_shares_are_judged_in_per_cent_and_end_at_a_hundred() -> None:
    assert weigh([90, 91, 92, 91, 90], "%").unit == "%"
    with pytest.raises(ValueError, match="up to 100 %"):
        weigh([90, 101], "%")


@pytest.mark.parametrize(
    ("readings", "named"),
    [
        ([8.0], "readings: 1"),
        ([], "readings: 0"),
        ([8.0] * 101, "readings: 101"),
        ([8.0, -1.0], "reading 2: -1.0"),
        ([8.0, 0.0], "reading 2: 0.0"),
        ([math.nan, 8.0], "reading 1: nan"),
        ([8.0, math.inf], "reading 2: inf"),
    ],
)
def test_a_bad_reading_is_refused_by_number_and_value(readings: list[float], named: str) -> None:
    with pytest.raises(ValueError, match="accepted") as refused:
        weigh(readings)
    assert str(refused.value).startswith(named)
