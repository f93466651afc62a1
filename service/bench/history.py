"""What the bench remembers beside the book: its versions with their notes, in ``versions.json``."""

from __future__ import annotations

import threading
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from typing import Literal

from service.host.kept import Kept

MOST_VERSIONS = 500
"""How many versions are remembered; an owner who saves daily has more than a year of them."""


@dataclass(frozen=True, slots=True)
class VersionRecord:
    """One version: its note, when and how it came (ms since 1970 UTC), and which files it changed."""

    version: str
    note: str
    at: int
    by: Literal["bench", "folder", "roll-back"]
    changed: tuple[str, ...]
    anyway: bool = False


class Versions:
    """Every version that came; safe to use from several threads."""

    def __init__(self, folder: Path) -> None:
        self._kept = Kept(folder / "versions.json")
        self._lock = threading.RLock()

    def all(self) -> list[VersionRecord]:
        """Every version, the latest last."""
        told = self._kept.read([])
        return [VersionRecord(**{**each, "changed": tuple(each["changed"])}) for each in told]

    def add(self, record: VersionRecord) -> None:
        """Note what became of the book: one more row, or another note for the version that stands last.

        A version that comes back (rolled back to) is told again, and its earlier row stays.
        """
        with self._lock:
            told = self.all()
            if told and told[-1].version == record.version:
                told.pop()
            self._kept.write([asdict(each) for each in [*told, record][-MOST_VERSIONS:]])

    def opened_anyway(self, version: str) -> None:
        """Note that a version, as it came last, was opened by the owner's word."""
        with self._lock:
            told = self.all()
            last = max((n for n, each in enumerate(told) if each.version == version), default=None)
            if last is not None:
                told[last] = replace(told[last], anyway=True)
                self._kept.write([asdict(each) for each in told])
