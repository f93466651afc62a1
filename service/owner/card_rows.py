"""The steps of a drink at its sizes, as the rows of a recipe card."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from recipes.measures import figure
from recipes.model import Build, Duration, Step


@dataclass(frozen=True, slots=True)
class CardRow:
    """One step of the card: what it is, and how it is at each size (None: not there)."""

    station: str
    label: str
    steps: tuple[Step | None, ...]


def card_rows(builds: Sequence[Build]) -> list[CardRow]:
    """The steps of several builds in one order: a step is known by station, label and how often it came."""
    keyed: list[dict[tuple[str, str, int], Step]] = []
    for build in builds:
        found: dict[tuple[str, str, int], Step] = {}
        for step in build.steps:
            times = sum(key[:2] == (step.station, step.short) for key in found)
            found[step.station, step.short, times] = step
        keyed.append(found)
    longest = max(keyed, key=len)
    order = list(dict.fromkeys([*longest, *(key for found in keyed for key in found)]))
    stations = list(dict.fromkeys(step.station for build in builds for step in build.steps))
    order.sort(key=lambda key: stations.index(key[0]))
    return [CardRow(key[0], key[1], tuple(found.get(key) for found in keyed)) for key in order]


def said(step: Step | None) -> str:
    """A step at one size: its amount, its time, or a dash where it is not made."""
    if step is None:
        return "–"
    parts = []
    if step.amount is not None:
        parts.append(f"{figure(step.amount.count)} {step.amount.unit}")
    if step.duration is not None:
        parts.append(_time(step.duration))
    return " · ".join(parts) or "yes"


def _time(duration: Duration) -> str:
    low, high = f"{duration.low_s:.0f}", f"{duration.high_s:.0f}"
    return f"{high} s" if low == high else f"{low}–{high} s"
