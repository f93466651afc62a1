"""The latest events, so that a display that was away for a moment gets the rest and not the whole."""

from __future__ import annotations

from collections import deque
from itertools import islice

from service.orders.events import Event
from service.orders.subject import OrdersFold, OrdersMoved
from service.orders.views import Touched, touched

KEPT = 2000
"""How many events back a display may resume from: an hour of a rush, more than enough for a reload."""


class Recent:
    """Listens to a fold and keeps its latest events."""

    def __init__(self, fold: OrdersFold, kept: int = KEPT) -> None:
        self._fold = fold
        self._events: deque[Event] = deque(maxlen=kept)
        fold.listen(self._moved)

    def since(self, position: int) -> Touched | None:
        """What was touched after ``position``; None when that is too long ago, or ahead of the journal.

        Call it while holding the fold's turn, together with whatever is read from its state.
        """
        missed = self._fold.state.position - position
        if not 0 <= missed <= len(self._events):
            return None
        return touched(islice(self._events, len(self._events) - missed, None))

    def _moved(self, moved: OrdersMoved) -> None:
        self._events.extend(moved.events)
