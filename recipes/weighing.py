"""Repeated weighings of one measure (a scoop, a stroke, a shot, a cube): mean, spread and a verdict.

The verdict is that of a control chart for individual readings: the limits lie three standard deviations
either side of the mean, the standard deviation being estimated from the mean moving range of two
readings over d2 = 1.128 (NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2).
"""

from __future__ import annotations

import math
import statistics
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

LEAST_READINGS = 5
"""Fewer readings than this say little about the spread; a house rule."""

MOST_READINGS = 100

D2_OF_TWO = 1.128
"""Mean range of two readings of a normal distribution, in standard deviations (e-Handbook 6.3.2)."""

STEADY_PCT = 4.0
"""A hand whose readings spread by no more (coefficient of variation) keeps a drink the same; house rule."""

T_975 = (
    12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228,
    2.201, 2.179, 2.160, 2.145, 2.131, 2.120, 2.110, 2.101, 2.093, 2.086,
    2.080, 2.074, 2.069, 2.064, 2.060, 2.056, 2.052, 2.048, 2.045, 2.042,
)  # fmt: skip
"""Student's t, 97.5 % point, for 1 to 30 degrees of freedom (e-Handbook 1.3.6.7.2)."""

Verdict = Literal["more readings", "not one process", "wide", "steady"]


@dataclass(frozen=True, slots=True)
class Weighing:
    """What the readings come to, in grams; ``outside`` are the numbers (from 1) of readings that stand out.

    ``margin_g`` is half the 95 % confidence interval of the mean. ``words`` says what to do.
    """

    readings_g: tuple[float, ...]
    mean_g: float
    spread_g: float
    spread_pct: float
    margin_g: float
    low_g: float
    high_g: float
    outside: tuple[int, ...]
    verdict: Verdict
    words: str


def weigh(readings_g: Sequence[float]) -> Weighing:
    """Judge repeated readings in grams, in the order they were taken, each positive; at least two.

    Raises ``ValueError`` naming the reading and what is accepted.
    """
    readings = _checked(readings_g)
    mean = statistics.fmean(readings)
    spread = statistics.stdev(readings)
    sigma = statistics.fmean(abs(b - a) for a, b in pairwise(readings)) / D2_OF_TWO
    low, high = mean - 3 * sigma, mean + 3 * sigma
    outside = tuple(n for n, reading in enumerate(readings, 1) if not low <= reading <= high)
    spread_pct = 100 * spread / mean
    verdict = _verdict(len(readings), outside, spread_pct)
    return Weighing(
        readings_g=readings,
        mean_g=mean,
        spread_g=spread,
        spread_pct=spread_pct,
        margin_g=_t(len(readings) - 1) * spread / math.sqrt(len(readings)),
        low_g=max(0.0, low),
        high_g=high,
        outside=outside,
        verdict=verdict,
        words=_words(verdict, len(readings), outside, spread_pct),
    )


def _checked(readings_g: Sequence[float]) -> tuple[float, ...]:
    if not 2 <= len(readings_g) <= MOST_READINGS:
        raise ValueError(f"readings: {len(readings_g)} given; accepted are 2 to {MOST_READINGS}")
    for n, reading in enumerate(readings_g, 1):
        if not (math.isfinite(reading) and 0 < reading <= 10_000):
            raise ValueError(f"reading {n}: {reading!r}; accepted is a weight above 0 and up to 10000 g")
    return tuple(float(reading) for reading in readings_g)


def _t(freedom: int) -> float:
    """The 97.5 % point of Student's t; past the table its last row, which errs to the wide side."""
    return T_975[min(freedom, len(T_975)) - 1]


def _verdict(count: int, outside: tuple[int, ...], spread_pct: float) -> Verdict:
    if count < LEAST_READINGS:
        return "more readings"
    if outside:
        return "not one process"
    return "steady" if spread_pct <= STEADY_PCT else "wide"


def _words(verdict: Verdict, count: int, outside: tuple[int, ...], spread_pct: float) -> str:
    match verdict:
        case "more readings":
            left = LEAST_READINGS - count
            return f"Weigh {left} more: {count} readings say little about the spread."
        case "not one process":
            named = " and ".join(str(n) for n in outside)
            return (
                f"Reading {named} stands out: find out why (not levelled? air in the pump?) and weigh again."
            )
        case "wide":
            return f"They spread by {spread_pct:.1f} %, more than {STEADY_PCT:g} %: level every scoop alike."
        case "steady":
            return f"Steady: the readings spread by {spread_pct:.1f} %. The mean can go into the pantry."
