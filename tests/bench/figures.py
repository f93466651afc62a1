"""One figure of a benchmark: ours against a floor taken in the same run, told as a ratio."""

from __future__ import annotations

import statistics
from collections.abc import Callable, Iterable
from dataclasses import asdict, dataclass
from time import perf_counter


@dataclass(frozen=True, slots=True)
class Figure:
    """``ours`` and ``floor`` are medians in ``unit``; ``ratio`` is ours / floor; ``of`` says of what."""

    name: str
    unit: str
    ours: float
    floor: float
    ratio: float
    ours_p95: float
    floor_p95: float
    samples: int
    floor_is: str

    def __str__(self) -> str:
        return (
            f"{self.name:<34} ours {self.ours:>10.3f} {self.unit}   floor {self.floor:>10.3f} {self.unit}"
            f"   ratio {self.ratio:>7.2f}   ({self.floor_is}, n={self.samples})"
        )

    def as_json(self) -> dict[str, object]:
        """The figure as plain data."""
        return asdict(self)


def figure(name: str, unit: str, floor_is: str, ours: list[float], floor: list[float]) -> Figure:
    """Medians and 95th percentiles of two samples taken in the same run."""
    ours_mid, floor_mid = statistics.median(ours), statistics.median(floor)
    return Figure(
        name, unit, ours_mid, floor_mid, ours_mid / floor_mid, _p95(ours), _p95(floor), len(ours), floor_is
    )  # fmt: skip


def _p95(sample: list[float]) -> float:
    return statistics.quantiles(sample, n=20, method="inclusive")[18]


def in_turn(
    rounds: int, ours: Callable[[int], object], floor: Callable[[int], object]
) -> tuple[list[float], list[float]]:
    """Seconds of each call, ours and the floor turn by turn, so that a slow moment hits both."""
    a, b = [], []
    for turn in range(rounds):
        a.append(_seconds(ours, turn))
        b.append(_seconds(floor, turn))
    return a, b


def scaled(sample: Iterable[float], factor: float) -> list[float]:
    """A sample in another unit."""
    return [value * factor for value in sample]


def _seconds(call: Callable[[int], object], turn: int) -> float:
    begun = perf_counter()
    call(turn)
    return perf_counter() - begun
