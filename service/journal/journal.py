"""The journal: the one truth of a store, an append-only row of records at positions 1, 2, 3, …

This module is the seam. Storages (memory.py, redis.py) import it and are held to one set of
tests; everything else only knows what stands here.

    JournalError
    ├── Conflict      somebody else appended first: catch up and decide again
    ├── KeyReused     the idempotency key was used for another request
    ├── Unavailable   the storage did not answer; nothing was appended
    │   └── Unsure    the storage did not answer in time; whether it appended is not known
    └── Damaged       what is stored cannot be read: never guess, stop
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

KEY_LIFE_S = 7 * 24 * 3600
"""How long a key is remembered (s): longer than a register may stay cut off with an unsent order."""


class JournalError(Exception):
    """Something went wrong with the journal."""


class Conflict(JournalError):
    """The journal is not at the expected position but at ``position``."""

    def __init__(self, expected: int, position: int) -> None:
        super().__init__(f"expected position {expected}, the journal is at {position}")
        self.position = position


class KeyReused(JournalError):
    """The idempotency key belongs to a request with another content."""


class Unavailable(JournalError):
    """The storage cannot be reached, or will not write. Nothing was appended."""


class Unsure(Unavailable):
    """The answer did not come: the records may be in, or may still go in."""


class Damaged(JournalError):
    """A record is missing or cannot be read."""


@dataclass(frozen=True, slots=True)
class Origin:
    """Who did something, on which device, by which request; empty where that is not known."""

    who: str = ""
    device: str = ""
    request: str = ""


NOBODY = Origin()
"""The service itself, or somebody of before there were names."""


@dataclass(frozen=True, slots=True)
class Record:
    """An event as stored: ``body`` is JSON text whose shape ``kind`` and ``version`` tell."""

    kind: str
    version: int
    at: int
    body: str
    origin: Origin = NOBODY


@dataclass(frozen=True, slots=True)
class Envelope:
    """A record at its position."""

    position: int
    record: Record


@dataclass(frozen=True, slots=True)
class Key:
    """An idempotency key with the fingerprint of the request it came with."""

    text: str
    fingerprint: str


class Journal(Protocol):
    """An append-only store of records. Every method may raise ``Unavailable``."""

    def store(self) -> str:
        """What tells this journal from every other: made by chance when it is first asked for, then kept."""
        ...

    def append(
        self, expected: int, records: Sequence[Record], key: Key | None = None, answer: str = ""
    ) -> str | None:
        """Append all records after position ``expected``, or none, in one step that survives a crash.

        With a key, ``answer`` is kept beside the records; if the key was used before, nothing is
        appended and the answer kept then is returned (None means: appended now). Without records, only
        the key is kept. Raises Conflict, KeyReused, Unsure.
        """
        ...

    def end(self) -> int:
        """The position of the last record; 0 if there is none."""
        ...

    def answered(self, key: Key) -> str | None:
        """The answer kept for a key, if it was used. Raises KeyReused."""
        ...

    def read(self, after: int, limit: int) -> list[Envelope]:
        """The next records after a position, at most ``limit``, in order. Raises Damaged."""
        ...

    def wait(self, after: int, seconds: float) -> list[Envelope]:
        """Like ``read``, but waits up to ``seconds`` for something to come; empty if nothing did."""
        ...


class BookStore(Protocol):
    """Books by version, so that a queued drink's build can be worked out again after a restart."""

    def keep(self, version: str, files: dict[str, str]) -> None:
        """Keep a book's files. Keeping a version again changes nothing. May raise Unavailable."""
        ...

    def files(self, version: str) -> dict[str, str] | None:
        """The files of a book kept before; None if there is none. May raise Unavailable."""
        ...
