"""What tools can measure: every amount near a wanted one, with the counts that make it up."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from recipes.book import Tool

_SLACK = 1e-9
"""Keeps an amount that lies on a limit inside it, when it was reached through floating point."""


@dataclass(frozen=True, slots=True)
class Option:
    """One amount that can be measured: ``ml``, and how many of the smallest steps of which tools."""

    ml: float
    counts: tuple[tuple[Tool, int], ...]


def options(tools: tuple[Tool, ...], low_ml: float, high_ml: float) -> list[Option]:
    """Every amount from ``low_ml`` to ``high_ml``: steps of the first tool, and of one finer tool less than
    one such step. In order of the amount; nothing at all is an amount too."""
    found = list(_whole(tools[0], low_ml, high_ml))
    for finer in tools[1:]:
        found += _with_finer(tools[0], finer, low_ml, high_ml)
    return sorted(found, key=lambda option: (option.ml, len(option.counts)))


def _whole(tool: Tool, low_ml: float, high_ml: float) -> Iterator[Option]:
    step = tool.step_ml
    for count in range(max(0, math.ceil(low_ml / step - _SLACK)), math.floor(high_ml / step + _SLACK) + 1):
        yield Option(count * step, ((tool, count),) if count else ())


def _with_finer(tool: Tool, finer: Tool, low_ml: float, high_ml: float) -> Iterator[Option]:
    step, small = tool.step_ml, finer.step_ml
    first = max(0, math.floor(low_ml / step) - 1)
    for count in range(first, math.floor(high_ml / step + _SLACK) + 1):
        base = count * step
        least = max(1, math.ceil((low_ml - base) / small - _SLACK))
        most = min(math.floor((high_ml - base) / small + _SLACK), math.ceil(step / small - _SLACK) - 1)
        for fine in range(least, most + 1):
            counts = ((tool, count), (finer, fine)) if count else ((finer, fine),)
            yield Option(base + fine * small, counts)
