"""How a set of times is spread: percentiles by linear interpolation between order statistics."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import floor


@dataclass(frozen=True, slots=True)
class Spread:
    """Count, median, 90th and 95th percentile and longest, in seconds; None where there are none."""

    count: int
    p50: float | None
    p90: float | None
    p95: float | None
    longest: float | None


def quantile(ordered: Sequence[float], share: float) -> float:
    """The quantile of values in rising order, at least one; ``share`` from 0 to 1.

    Definition 7 of Hyndman and Fan, Sample Quantiles in Statistical Packages (The American Statistician
    50, 1996): with n values it lies at (n − 1)·share steps from the first, linear between neighbours.
    """
    place = (len(ordered) - 1) * share
    below = floor(place)
    above = min(below + 1, len(ordered) - 1)
    return ordered[below] + (place - below) * (ordered[above] - ordered[below])


def spread(milliseconds: Iterable[int]) -> Spread:
    """The spread, in seconds, of durations in milliseconds."""
    ordered = [each / 1000 for each in sorted(milliseconds)]
    if not ordered:
        return Spread(0, None, None, None, None)
    return Spread(
        len(ordered),
        quantile(ordered, 0.50),
        quantile(ordered, 0.90),
        quantile(ordered, 0.95),
        ordered[-1],
    )
