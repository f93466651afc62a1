"""Keeps snapshots while the service runs: every so many records, and at an orderly end."""

from __future__ import annotations

import logging
import threading
from collections.abc import Callable
from typing import Any

from service.journal.fold import Fold, Moved
from service.journal.journal import Journal, JournalError
from service.journal.snapshot import SPACING, Snapshots

LOG = logging.getLogger("levelscoop")


class Keeper:
    """Listens to a fold. ``aside`` does the writing where it holds nobody up."""

    def __init__(
        self,
        snapshots: Snapshots[Any],
        fold: Fold[Any, Any],
        journal: Journal,
        aside: Callable[[Callable[[], None]], None],
        spacing: int = SPACING,
    ) -> None:
        self._snapshots, self._fold, self._journal = snapshots, fold, journal
        self._aside, self._spacing = aside, spacing
        self._writing = threading.Lock()
        self._failed = ""

    def start(self) -> None:
        """Begin to keep, at once where the start had much to read."""
        self._fold.listen(self._moved)
        self._keep_if_due(self._fold.state)

    def close(self) -> None:
        """Keep where the service stands, so that the next start has nothing to read."""
        state = self._fold.state
        if state.position > self._snapshots.position:
            self._keep(state)

    def _moved(self, moved: Moved[Any, Any]) -> None:
        self._keep_if_due(moved.after)

    def _keep_if_due(self, state: Any) -> None:  # noqa: ANN401  (whatever the subject's state is)
        if state.position - self._snapshots.position >= self._spacing and not self._writing.locked():
            threading.Thread(target=self._keep, args=(state,), name="snapshot", daemon=True).start()

    def _keep(self, state: Any) -> None:  # noqa: ANN401
        if not self._writing.acquire(blocking=False):
            return
        try:
            found = self._journal.read(state.position - 1, 1)
            if not found:
                return  # the journal is not what it was: whoever follows it says so
            self._aside(lambda: self._snapshots.keep(state, self._fold.store, found[0]))
            self._failed = ""
        except (OSError, JournalError) as fault:
            # It is a short cut only. Said once: the next records try again.
            if str(fault) != self._failed:
                self._failed = str(fault)
                LOG.warning("no snapshot could be kept, a start will take longer: %s", fault)
        finally:
            self._writing.release()
