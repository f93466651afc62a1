"""A build on a terminal, as a person at the bar would like to read it: at most 100 columns, no colour."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from itertools import groupby

from recipes.measures import COUNTED, figure
from recipes.model import Amount, Build, Duration, Step
from service.cli.build_cup import draw

WIDTH = 100
"""The widest line."""

_STATION, _TALLY, _COUNT, _WHAT, _WHERE = 12, 12, 13, 15, 9


def render(build: Build) -> str:
    """The whole card: title, steps by station with tallies, times and cautions; then what it comes to."""
    parts = [_head(build), _steps(build), _outcome(build), _told(build)]
    return "\n".join(line.rstrip() for part in parts for line in part) + "\n"


def _head(build: Build) -> list[str]:
    said = " · ".join(build.words) or "as it comes"
    return [build.title, *_wrapped(said, "  "), "─" * WIDTH]


def _steps(build: Build) -> Iterator[str]:
    """Station by station, one line a step; a caution stands once at each station, behind its first step."""
    for station, steps in groupby(build.steps, key=lambda step: step.station):
        label = station.replace("_", " ").upper()
        told: set[str | None] = {None}
        for step in steps:
            yield from _step(label, step, step.caution not in told)
            told.add(step.caution)
            label = ""
    yield "─" * WIDTH


def _step(label: str, step: Step, cautioned: bool) -> Iterator[str]:
    front = f"{label[: _STATION - 1]:<{_STATION}}{step.number:>2}  "
    timed = f"{_time(step.duration)}" if step.duration is not None else ""
    if step.amount is None:
        lines = textwrap.wrap(step.text, WIDTH - len(front) - 20) or [""]
        yield f"{front}{lines[0]:<{WIDTH - len(front) - 20}}{timed:>20}"
        yield from (" " * len(front) + line for line in lines[1:])
    else:
        amount = step.amount
        what = _name(step)
        counted = f"{tallies(amount):<{_TALLY}}{_count(amount):<{_COUNT}}"
        told = f"{counted} {what:<{_WHAT}} {_where(step):<{_WHERE}}{_base(amount)}"
        yield f"{front}{told}{timed:>{max(1, WIDTH - len(front) - len(told))}}"
    if cautioned:
        yield f"{'':<{len(front)}}! {step.caution}"


def tallies(amount: Amount) -> str:
    """Marks to be counted at a glance, in groups of five; a half is a half-high mark. "" for pours and for
    more than can be counted so."""
    if amount.kind not in COUNTED:
        return ""
    whole, part = divmod(amount.count, 1)
    groups = ["❙" * 5] * (int(whole) // 5) + ["❙" * (int(whole) % 5)] * (whole % 5 > 0)
    marks = " ".join(groups) + ("╻" if part else "")
    return marks if len(marks) < _TALLY else ""


def _name(step: Step) -> str:
    """The ingredient as the cell calls it, cut to its column."""
    return step.short[: _WHAT - 1]


def _where(step: Step) -> str:
    """The vessel, on the first step that goes into it; or how warm a step makes what it heats."""
    heat = f"to {step.celsius:.0f} °C" if step.celsius is not None else ""
    return f"→ {step.into}" if step.into else heat


def _count(amount: Amount) -> str:
    return f"{figure(amount.count)} {amount.unit}"


def _base(amount: Amount) -> str:
    """The amount in base units, without repeating what the count has said; ice by its mass alone."""
    mass = f"{amount.mass_g:.0f} g" if amount.mass_g >= 10 else f"{amount.mass_g:.1f} g"
    if amount.unit == "ml" or amount.kind == "ice scoop":
        return mass
    return f"{round(amount.volume_ml, 1):g} ml · {mass}"


def _time(duration: Duration) -> str:
    low, high = f"{duration.low_s:.0f}", f"{duration.high_s:.0f}"
    length = f"{high} s" if low == high else f"{low}–{high} s"
    return length if duration.attended else f"{length}, by itself"


def _outcome(build: Build) -> Iterator[str]:
    """The cup beside what the drink comes to."""
    balance, fill = build.balance, build.fill
    facts = [
        (
            "Filled",
            f"{fill.filled_ml:.0f} of {fill.line_ml:.0f} ml, {fill.head_ml:.0f} ml below the seal line",
        ),
        ("Mixing", f"{fill.vessel_ml:.0f} of {fill.vessel_limit_ml:.0f} ml in the {fill.vessel}"),
        ("Handed over", _warmth(build)),
        (
            "Sweetness",
            f"{balance.brix:.1f} °Bx; {balance.sugars_g:.0f} g sugars, {balance.added_sugars_g:.0f} g added",
        ),
        ("Caffeine", f"{balance.caffeine_mg:.0f} mg"),
        ("Strength", _strength(build)),
        ("Energy", build.energy_words),
        ("Contains", ", ".join(build.allergens) or "ask us before you order"),
    ]
    drawing = draw(fill)
    written: list[str] = []
    for name, value in facts:
        lines = textwrap.wrap(value, WIDTH - 48) or [""]
        written += [f"{name:<13}{lines[0]}", *(f"{'':<13}{line}" for line in lines[1:])]
    for place in range(max(len(drawing), len(written))):
        left = drawing[place] if place < len(drawing) else ""
        right = written[place] if place < len(written) else ""
        yield f"{left:<35}{right}"


def _strength(build: Build) -> str:
    """Dry matter, tea and dilution; and what is furthest off the recipe, where anything is."""
    balance = build.balance
    watered = f"{balance.dilution_pct:.0f} % melt and water"
    said = f"{balance.dry_pct:.1f} % dry matter, {balance.tea_pct:.0f} % tea, {watered}"
    worst = build.errors[0] if build.errors else None
    if worst is None or abs(worst.error_pct) < 0.5:
        return f"{said}; as the recipe"
    return f"{said}; furthest off: {worst.label.lower()} {worst.error_pct:+.0f} %"


def _warmth(build: Build) -> str:
    balance = build.balance
    ice = f", {balance.ice_left_g:.0f} g ice left of {balance.ice_left_g + balance.melted_g:.0f} g"
    return f"{balance.temperature_c:.0f} °C{ice if balance.ice_left_g + balance.melted_g > 0 else ''}"


def _told(build: Build) -> Iterator[str]:
    if build.cautions or build.notes:
        yield "─" * WIDTH
    for caution in build.cautions:
        yield from _wrapped(caution.words, "! ")
    for note in build.notes:
        yield from _wrapped(note.words, "· ")


def _wrapped(text: str, mark: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=mark, subsequent_indent=" " * len(mark))
