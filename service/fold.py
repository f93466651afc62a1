"""The journal's fold, held in memory: the state now, and who is told when it moves on."""

from __future__ import annotations

import threading
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from service.codec import decode
from service.core.bar.events import Event
from service.core.bar.evolve import evolve
from service.core.bar.state import EMPTY, State
from service.journal import Damaged, Envelope, Journal

BATCH = 500
"""How many records are read at a time when catching up."""


@dataclass(frozen=True, slots=True)
class Moved:
    """A move of the fold: the events that led from one state to the next, and both states."""

    before: State
    after: State
    events: tuple[Event, ...]


Listener = Callable[[Moved], None]


class Fold:
    """One store's state as far as its journal has been read; ``store`` tells that journal from others.

    ``state`` may be read at any time from anywhere: it is a value that gets replaced. ``turn`` is held
    while it moves and listeners are told, so whoever holds it sees no move; it is never held while
    waiting for the journal. Listeners must be quick and must not raise.
    """

    def __init__(self) -> None:
        self.store = ""
        self.state: State = EMPTY
        self.turn = threading.RLock()
        self._listeners: list[Listener] = []

    def listen(self, listener: Listener) -> None:
        """Have ``listener`` told of every move from now on, in order, none left out."""
        with self.turn:
            self._listeners.append(listener)

    def apply(self, envelopes: Sequence[Envelope]) -> None:
        """Fold in what was read or appended; records already folded are passed over. Raises Damaged."""
        with self.turn:
            before = self.state
            news = [each for each in envelopes if each.position > before.position]
            if not news:
                return
            after, events = before, []
            for envelope in news:
                if envelope.position != after.position + 1:
                    raise Damaged(
                        f"the journal goes from record {after.position} to {envelope.position}: "
                        "records between them are missing"
                    )
                event = decode(envelope)
                after = evolve(after, event)
                events.append(event)
            self.state = after
            moved = Moved(before, after, tuple(events))
            for listener in self._listeners:
                listener(moved)

    def catch_up(self, journal: Journal) -> None:
        """Read the journal to its end. Raises Unavailable, Damaged."""
        if not self.store:
            self.store = journal.store()
        while True:
            news = journal.read(self.state.position, BATCH)
            self.apply(news)
            if len(news) < BATCH:
                return
