"""Following the journal: what any process of the store appends reaches the fold of this one."""

from __future__ import annotations

import logging
import threading
from collections.abc import Callable
from typing import Any

from service.journal.fold import Fold
from service.journal.journal import Damaged, Journal, Unavailable

LOG = logging.getLogger("levelscoop")

BLOCK_S = 1.0
"""How long one wait for news lasts (s); a stop is noticed within it."""

PAUSE_S = 0.2
"""How long to wait (s) before asking again a journal that did not answer."""


class Follower:
    """Reads the journal from the fold's position on, for as long as it runs, in a thread of its own.

    ``reachable`` tells whether the journal answered last time, and what it said could be folded in. A damaged
    journal stops the follower and is handed to ``on_damage``: to go on would be to guess.
    """

    def __init__(self, journal: Journal, fold: Fold[Any, Any], on_damage: Callable[[Damaged], None]) -> None:
        self._journal = journal
        self._fold = fold
        self._on_damage = on_damage
        self._stop = threading.Event()
        self._thread = threading.Thread(target=self._run, name="follower", daemon=True)
        self.reachable = threading.Event()

    def start(self) -> None:
        """Begin to follow."""
        self.reachable.set()
        self._thread.start()

    def stop(self) -> None:
        """End following and wait for it."""
        self._stop.set()
        self._thread.join()

    def _run(self) -> None:
        told = ""
        while not self._stop.is_set():
            try:
                if not self.reachable.is_set():
                    self._fold.check(self._journal)
                self._fold.read_in(self._journal.wait(self._fold.state.position, BLOCK_S))
                self.reachable.set()
            except Unavailable:
                self.reachable.clear()
                self._stop.wait(PAUSE_S)
            except Damaged as damage:
                self.reachable.clear()
                self._on_damage(damage)
                return
            except Exception as fault:
                self.reachable.clear()
                if repr(fault) != told:
                    told = repr(fault)
                    LOG.exception("a fault of ours, on following the journal; it is tried again")
                self._stop.wait(PAUSE_S)
