"""Command → decide → append at the expected position; when somebody was faster, catch up and again."""

from __future__ import annotations

import threading
from collections.abc import Callable
from dataclasses import dataclass
from typing import Generic

from service.journal.fold import Fold, lost
from service.journal.journal import (
    NOBODY,
    Conflict,
    Damaged,
    Envelope,
    Journal,
    Key,
    KeyReused,
    Origin,
    Unavailable,
    Unsure,
)
from service.journal.kinds import C, E, S, Subject
from service.journal.refusals import Refused

TURN_S = 1.0
"""How long a command waits for those before it (s) while the journal does not answer them."""

TRIES = 50
"""How often a command is decided anew when others keep appending first."""


@dataclass(frozen=True, slots=True)
class Outcome(Generic[E]):
    """What became of a command: its answer; ``events`` are empty when nothing changed.

    ``repeated`` tells that the answer is that of an earlier request with the same key.
    """

    answer: str
    events: tuple[E, ...]
    repeated: bool


class Handler(Generic[S, E, C]):
    """Handles the commands of one store in this process, one at a time.

    A journal found damaged is told to ``on_damage`` too, since a service that went on would guess.
    """

    def __init__(
        self,
        journal: Journal,
        subject: Subject[S, E, C],
        fold: Fold[S, E],
        now: Callable[[], int],
        on_damage: Callable[[Damaged], None],
    ) -> None:
        self._journal = journal
        self._decide = subject.decide
        self._fold = fold
        self._now = now
        self._on_damage = on_damage
        self._lock = threading.Lock()

    def handle(
        self,
        command: C,
        answer_of: Callable[[tuple[E, ...], int], str],
        key: Key | None = None,
        origin: Origin = NOBODY,
    ) -> Outcome[E]:
        """Carry out a command; ``answer_of`` makes its answer from its events and the position after them.

        Raises Refused, KeyReused, Unavailable, Unsure, Damaged.

        After Unsure it is safe to send the same command again: with its key it has one effect, and
        without one only commands are sent that ask for a state, not for a change.
        """
        if not self._lock.acquire(timeout=TURN_S):
            raise Unavailable("others are waiting for the journal too")
        try:
            return self._handle(command, answer_of, key, origin)
        except Damaged as damage:
            self._on_damage(damage)
            raise
        finally:
            self._lock.release()

    def earlier(self, key: Key | None) -> str | None:
        """The answer given to an earlier request with this key. Raises KeyReused, Unavailable."""
        return None if key is None else self._journal.answered(key)

    def _handle(
        self, command: C, answer_of: Callable[[tuple[E, ...], int], str], key: Key | None, origin: Origin
    ) -> Outcome[E]:
        fresh = False
        for _ in range(TRIES):
            state = self._fold.state
            try:
                events = self._decide(state, command, self._now())
            except Refused:
                # A retry may be refused by what its own first try brought about (or by news we lack).
                if (earlier := self.earlier(key)) is not None:
                    return Outcome(earlier, (), repeated=True)
                if fresh:
                    raise
                events = ()
            if not events and not fresh:
                self._fold.catch_up(self._journal)
                fresh = True
                continue
            answer = answer_of(events, state.position + len(events))
            if not events and key is None:
                return Outcome(answer, (), repeated=False)
            try:
                return self._append(state.position, events, key, answer, origin)
            except Conflict as conflict:
                lost(conflict.position, state.position)
                self._fold.catch_up(self._journal)
                fresh = True
        raise Unavailable(f"others appended first, {TRIES} times in a row")

    def _append(
        self, expected: int, events: tuple[E, ...], key: Key | None, answer: str, origin: Origin
    ) -> Outcome[E]:
        records = [self._fold.codec.encode(event, origin) for event in events]
        try:
            earlier = self._journal.append(expected, records, key, answer)
        except Unsure:
            if key is None or (earlier := self._found(key)) is None:
                raise
        if earlier is not None:
            return Outcome(earlier, (), repeated=True)
        self._fold.apply([Envelope(expected + n, record) for n, record in enumerate(records, start=1)])
        return Outcome(answer, events, repeated=False)

    def _found(self, key: Key) -> str | None:
        """What a key's answer is, after an append whose own answer was lost; None while not known."""
        try:
            return self._journal.answered(key)
        except (Unavailable, KeyReused):
            return None
