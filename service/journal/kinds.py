"""What a subject tells the journal of itself: its kinds of events, and what they do to its state.

The journal, its codec, the fold and the handler take this as a value and know no subject by name.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Generic, Protocol, TypeVar

from pydantic import ConfigDict


@dataclass(frozen=True, slots=True)
class Recorded:
    """What every event is: a value dated ``at``, in ms since 1970 UTC, that is read from its record strictly,
    with all that it holds: nothing unknown, and no text for a number."""

    __pydantic_config__ = ConfigDict(extra="forbid", strict=True)

    at: int


class Standing(Protocol):
    """A state: a value that knows up to which record it was folded."""

    @property
    def position(self) -> int:
        """The position of the last record in it; 0 before any."""
        ...


E = TypeVar("E", bound=Recorded)
S = TypeVar("S", bound=Standing)
C = TypeVar("C")

Lift = Callable[[dict[str, Any]], dict[str, Any]]
"""Turns the body of a record of one version into that of the next."""


@dataclass(frozen=True, slots=True)
class Kind(Generic[E]):
    """A kind of event: its name in the records, which is that of no class, so that renaming one costs
    nothing; and what lifts the records of its older versions, the first from version 1 to 2."""

    name: str
    event: type[E]
    lifts: tuple[Lift, ...] = ()

    @property
    def version(self) -> int:
        """The version that is written."""
        return len(self.lifts) + 1


@dataclass(frozen=True, slots=True)
class Subject(Generic[S, E, C]):
    """What a subject records, from where its state starts, what an event does to it, and what becomes of a
    command: events, or a ``Refused``. ``evolve`` and ``decide`` are pure."""

    kinds: tuple[Kind[Any], ...]
    start: S
    evolve: Callable[[S, E], S]
    decide: Callable[[S, C, int], tuple[E, ...]]
