"""What tools can measure: every amount near a wanted one, with the counts that make it up."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from recipes.book import Tool

GRAIN = 0.01
"""Steps finer than this share of what is wanted are taken several at a time: nobody tastes half a per cent,
and a jug marked every drop would make for more choices than could ever be looked through."""

_SLACK = 1e-9
"""Keeps an amount that lies on a limit inside it, when it was reached through floating point."""


@dataclass(frozen=True, slots=True)
class Option:
    """One amount that can be measured: ``ml``, and how many of the smallest steps of which tools."""

    ml: float
    counts: tuple[tuple[Tool, int], ...]

    def reaches_beyond(self, own: Tool) -> bool:
        """Whether it takes any tool but the recipe's ``own``, which always stands first."""
        return bool(self.counts) and self.counts[-1][0].id != own.id


def options(tools: tuple[Tool, ...], low_ml: float, high_ml: float, wanted_ml: float) -> list[Option]:
    """Every amount from ``low_ml`` to ``high_ml`` that the tools can measure, each in its handiest way.

    Steps of the first tool, the recipe's own; else one reading of a finer tool that holds so much; else steps
    of the first and less than one such step of a finer one. In order of the amount; nothing at all is an
    amount too. Steps finer than ``GRAIN`` of ``wanted_ml`` come several at a time, counted from the one
    nearest to it.
    """
    own, *others = tools
    grain = GRAIN * wanted_ml
    found = list(_whole(own, low_ml, high_ml, wanted_ml, grain))
    if not others or own.step_ml <= grain:
        return found
    for finer in others:
        if finer.reads_ml is not None:
            found += _whole(finer, low_ml, min(high_ml, finer.reads_ml), wanted_ml, grain)
    for finer in others:
        found += _with_finer(own, finer, low_ml, high_ml, grain)
    handiest: dict[float, Option] = {}
    for option in found:
        handiest.setdefault(round(option.ml, 6), option)
    return sorted(handiest.values(), key=lambda option: option.ml)


def _at_a_time(step_ml: float, grain_ml: float) -> int:
    return max(1, math.ceil(grain_ml / step_ml - _SLACK))


def _whole(tool: Tool, low_ml: float, high_ml: float, wanted_ml: float, grain_ml: float) -> Iterator[Option]:
    step = tool.step_ml
    first, last = max(0, math.ceil(low_ml / step - _SLACK)), math.floor(high_ml / step + _SLACK)
    stride = _at_a_time(step, grain_ml)
    if stride > 1:
        nearest = math.floor(wanted_ml / step + 0.5 + _SLACK)
        first += (nearest - first) % stride
    for count in range(first, last + 1, stride):
        yield Option(count * step, ((tool, count),) if count else ())


def _with_finer(tool: Tool, finer: Tool, low_ml: float, high_ml: float, grain_ml: float) -> Iterator[Option]:
    step, small = tool.step_ml, finer.step_ml
    stride = _at_a_time(small, grain_ml)
    first = max(0, math.floor(low_ml / step) - 1)
    for count in range(first, math.floor(high_ml / step + _SLACK) + 1):
        base = count * step
        least = max(1, math.ceil((low_ml - base) / small - _SLACK))
        most = min(math.floor((high_ml - base) / small + _SLACK), math.ceil(step / small - _SLACK) - 1)
        for fine in range(least + (-least) % stride, most + 1, stride):
            counts = ((tool, count), (finer, fine)) if count else ((finer, fine),)
            yield Option(base + fine * small, counts)
