"""Repeated readings of one measure (a scoop, a stroke, a shot, a cube, a shake): mean, spread and a verdict.

The verdict is that of a control chart for individual readings: the limits lie three standard deviations
either side of the mean, the standard deviation being estimated from the mean moving range of two
readings over d2 = 1.128 (NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2). How many readings are
enough follows from how well the mean should be known, by Student's t (the same, 7.2.2.2, two-sided 95 %).
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

ENOUGH_PCT = 2.0
"""How well the mean has to be known, either side, in per cent of it: a fifth of a book's usual tolerance, so
that the measure itself takes only a small part of that. A house rule."""

T_975 = (
    12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228,
    2.201, 2.179, 2.160, 2.145, 2.131, 2.120, 2.110, 2.101, 2.093, 2.086,
    2.080, 2.074, 2.069, 2.064, 2.060, 2.056, 2.052, 2.048, 2.045, 2.042,
)  # fmt: skip
"""Student's t, 97.5 % point, for 1 to 30 degrees of freedom (e-Handbook 1.3.6.7.2)."""

Verdict = Literal["more readings", "not one process", "wide", "steady"]

Unit = Literal["g", "%"]
"""What is read: grams on a scale, or per cent of what a shake could melt."""


@dataclass(frozen=True, slots=True)
class Weighing:
    """What the readings come to, in their unit; ``outside`` are the numbers (from 1) of those that stand out.

    ``spread`` is their standard deviation (of a sample), ``spread_pct`` that in per cent of the mean,
    ``margin`` half the 95 % confidence interval of the mean; ``low`` and ``high`` are the control limits.
    ``needed`` readings of this spread know the mean within ENOUGH_PCT (None: more than MOST_READINGS).
    ``words`` says what to do, ``enough`` how well the mean is known, which is why.
    """

    unit: Unit
    readings: tuple[float, ...]
    mean: float
    spread: float
    spread_pct: float
    margin: float
    low: float
    high: float
    outside: tuple[int, ...]
    needed: int | None
    verdict: Verdict
    words: str
    enough: str


def weigh(given: Sequence[float], unit: Unit = "g") -> Weighing:
    """Judge repeated readings in the order they were taken, each positive; at least two.

    Raises ``ValueError`` naming the reading and what is accepted.
    """
    readings = _checked(given, unit)
    mean = statistics.fmean(readings)
    spread = statistics.stdev(readings)
    sigma = statistics.fmean(abs(b - a) for a, b in pairwise(readings)) / D2_OF_TWO
    low, high = mean - 3 * sigma, mean + 3 * sigma
    outside = tuple(n for n, reading in enumerate(readings, 1) if not low <= reading <= high)
    spread_pct = 100 * spread / mean
    margin = _margin(len(readings), spread)
    needed = _needed(spread, mean)
    verdict = _verdict(len(readings), outside, spread_pct, needed)
    return Weighing(
        unit=unit,
        readings=readings,
        mean=mean,
        spread=spread,
        spread_pct=spread_pct,
        margin=margin,
        low=max(0.0, low),
        high=high,
        outside=outside,
        needed=needed,
        verdict=verdict,
        words=_words(verdict, len(readings), outside, spread_pct, unit, needed),
        enough=_enough(verdict, len(readings), needed, 100 * margin / mean),
    )


def _checked(readings: Sequence[float], unit: Unit) -> tuple[float, ...]:
    if not 2 <= len(readings) <= MOST_READINGS:
        raise ValueError(f"readings: {len(readings)} given; accepted are 2 to {MOST_READINGS}")
    most = {"g": 10_000, "%": 100}[unit]
    for n, reading in enumerate(readings, 1):
        if not (math.isfinite(reading) and 0 < reading <= most):
            raise ValueError(
                f"reading {n}: {reading!r}; accepted is a figure above 0 and up to {most} {unit}"
            )
    return tuple(float(reading) for reading in readings)


def _t(freedom: int) -> float:
    """The 97.5 % point of Student's t; past the table its last row, which errs to the wide side."""
    return T_975[min(freedom, len(T_975)) - 1]


def _margin(count: int, spread: float) -> float:
    """Half the 95 % confidence interval of a mean of ``count`` readings."""
    return _t(count - 1) * spread / math.sqrt(count)


def _needed(spread: float, mean: float) -> int | None:
    """The fewest readings of this spread whose mean is known within ENOUGH_PCT; None past MOST_READINGS."""
    within = ENOUGH_PCT / 100 * mean
    counts = range(LEAST_READINGS, MOST_READINGS + 1)
    return next((count for count in counts if _margin(count, spread) <= within), None)


def _verdict(count: int, outside: tuple[int, ...], spread_pct: float, needed: int | None) -> Verdict:
    """Steady readings are alike, and enough of them: only then is the mean to be taken over."""
    if count < LEAST_READINGS:
        return "more readings"
    if outside:
        return "not one process"
    if spread_pct > STEADY_PCT:
        return "wide"
    return "more readings" if needed is None or count < needed else "steady"


def _words(
    verdict: Verdict, count: int, outside: tuple[int, ...], spread_pct: float, unit: Unit, needed: int | None
) -> str:
    match verdict:
        case "more readings":
            if count < LEAST_READINGS:
                left = LEAST_READINGS - count
                return f"{left} more: {count} readings say little about the spread."
            left = (needed or MOST_READINGS) - count
            return f"{left} more: the readings are alike, they spread by {spread_pct:.1f} %, but are few."
        case "not one process":
            named = " and ".join(str(n) for n in outside)
            stands = "stands" if len(outside) == 1 else "stand"
            why = (
                "not levelled? air in the pump?"
                if unit == "g"
                else "shaken shorter? ice left out of the bin?"
            )
            many = "Reading" if len(outside) == 1 else "Readings"
            return f"{many} {named} {stands} out: find out why ({why}), take it out and measure again."
        case "wide":
            return f"They spread by {spread_pct:.1f} %, more than {STEADY_PCT:g} %: work alike every time."
        case "steady":
            return f"Steady: the readings spread by {spread_pct:.1f} %. The mean can be taken over."


def _enough(verdict: Verdict, count: int, needed: int | None, margin_pct: float) -> str:
    """How well the mean is known, and how many readings make it known within ENOUGH_PCT.

    It explains the verdict and never gives another.
    """
    known, enough = f"the mean is known within {_within(margin_pct)}", _within(ENOUGH_PCT)
    if count < LEAST_READINGS:
        return f"Enough is when the mean is known within {enough}: {LEAST_READINGS} readings at least."
    so_far = f"So far {known}"
    if verdict == "steady":
        return f"Enough: {known}; {needed} readings of this spread do for {enough}."
    if needed is None:
        return (
            f"{so_far}, and at this spread not even {MOST_READINGS} readings bring it within {enough}. First "
            "make the readings more alike, or measure several at once."
        )
    if count < needed:
        return f"{so_far}; at this spread {needed} readings bring it within {enough}."
    return f"{so_far}."


def _within(pct: float) -> str:
    """Either side, in per cent, not to be parted at the end of a line."""
    return f"±\u00a0{pct:.2g}\u00a0%"
