"""The journal's fold, held in memory: the state now, and who is told when it moves on."""

from __future__ import annotations

import logging
import threading
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, Generic

from service.journal.codec import Codec
from service.journal.journal import Damaged, Envelope, Journal
from service.journal.kinds import E, S, Subject

LOG = logging.getLogger("levelscoop")

BATCH = 500
"""How many records are read at a time when catching up."""


@dataclass(frozen=True, slots=True)
class Moved(Generic[S, E]):
    """A move of the fold: the events that led from one state to the next, and both states."""

    before: S
    after: S
    events: tuple[E, ...]


def lost(end: int, position: int) -> None:
    """Raise Damaged if a journal that was read up to ``position`` ends before it."""
    if end < position:
        raise Damaged(
            f"the journal ends at record {end}, but went on to {position} before: it has lost its latest "
            "records, perhaps in a power cut of a disk that did not keep its word"
        )


class Fold(Generic[S, E]):
    """One store's state as far as its journal has been read; ``store`` tells that journal from others.

    ``state`` may be read at any time from anywhere: it is a value that gets replaced. ``turn`` is held
    while it moves and listeners are told, so whoever holds it sees no move; it is never held while
    waiting for the journal. Listeners must be quick. One that raises is logged and passed over: what is in
    the journal has happened, whoever fails at hearing of it.

    ``fetch`` is called, outside the turn, with events read from the journal before they are folded in, so
    that what the listeners need of them can be waited for. It may raise Unavailable; they are read again.
    """

    def __init__(
        self, subject: Subject[S, E, Any], fetch: Callable[[Sequence[E]], None] = lambda events: None
    ) -> None:
        self.store = ""
        self.codec: Codec[E] = Codec(subject.kinds)
        self.state: S = subject.start
        self.turn = threading.RLock()
        self._evolve, self._fetch = subject.evolve, fetch
        self._listeners: list[Callable[[Moved[S, E]], None]] = []
        self._resumed: list[Callable[[S], None]] = []

    def listen(
        self, listener: Callable[[Moved[S, E]], None], resumed: Callable[[S], None] | None = None
    ) -> None:
        """Have ``listener`` told of every move from now on, in order, none left out.

        ``resumed`` is told the state where the fold begins in the middle, before the first of those moves,
        and reads from the journal what of the past it needs. It may raise Unavailable: it is told again then.
        """
        with self.turn:
            self._listeners.append(listener)
            if resumed is not None:
                self._resumed.append(resumed)

    def resume(self, state: S) -> None:
        """Begin with a state that was kept, instead of the first record. May raise Unavailable, Damaged."""
        for resumed in self._resumed:
            resumed(state)
        self.state = state

    def read_in(self, envelopes: Sequence[Envelope]) -> None:
        """Fold in what was read from the journal, once what it needs is fetched.

        Raises Unavailable, Damaged.
        """
        position = self.state.position
        self._fetch([self.codec.decode(each) for each in envelopes if each.position > position])
        self.apply(envelopes)

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
                event = self.codec.decode(envelope)
                after = self._fitted(after, event, envelope)
                events.append(event)
            self.state = after
            moved = Moved(before, after, tuple(events))
            for listener in self._listeners:
                try:
                    listener(moved)
                except Exception:
                    LOG.exception("a fault of ours, on being told of record %d", after.position)

    def _fitted(self, state: S, event: E, envelope: Envelope) -> S:
        try:
            return self._evolve(state, event)
        except Exception as fault:
            place, kind = envelope.position, envelope.record.kind
            raise Damaged(
                f"the journal's record {place} ({kind!r}) does not fit what came before it: {fault!r}"
            ) from fault

    def check(self, journal: Journal) -> None:
        """See that a journal that was away is the same one, with all that was read of it. Raises Damaged.

        May raise Unavailable.
        """
        position = self.state.position
        if self.store and journal.store() != self.store:
            raise Damaged("the journal is another than before: the server holds other data now")
        lost(journal.end(), position)

    def replay(self, journal: Journal) -> None:
        """Read the journal to its end at a start: nobody is shown what went by, so nothing is fetched for it.

        Raises Unavailable, Damaged.
        """
        self._read_to_end(journal, self.apply)

    def catch_up(self, journal: Journal) -> None:
        """Read the journal to its end. Raises Unavailable, Damaged."""
        self._read_to_end(journal, self.read_in)

    def _read_to_end(self, journal: Journal, take: Callable[[Sequence[Envelope]], None]) -> None:
        if not self.store:
            self.store = journal.store()
        while True:
            news = journal.read(self.state.position, BATCH)
            take(news)
            if len(news) < BATCH:
                return
