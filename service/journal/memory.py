"""A journal on a list, for tests and tries: the same contract, gone when the process ends."""

from __future__ import annotations

import threading
import uuid
from collections.abc import Sequence

from service.journal.journal import Conflict, Envelope, Key, KeyReused, Record


class MemoryJournal:
    """Keeps records and keys in memory; safe to use from several threads. Keys are kept for ever."""

    def __init__(self) -> None:
        self._records: list[Record] = []
        self._keys: dict[str, tuple[str, str]] = {}
        self._books: dict[str, dict[str, str]] = {}
        self._news = threading.Condition()
        self._store = uuid.uuid4().hex

    def store(self) -> str:
        """See Journal."""
        return self._store

    def append(
        self, expected: int, records: Sequence[Record], key: Key | None = None, answer: str = ""
    ) -> str | None:
        """See Journal."""
        with self._news:
            if key is not None and (earlier := self._kept(key)) is not None:
                return earlier
            if expected != len(self._records):
                raise Conflict(expected, len(self._records))
            self._records.extend(records)
            if key is not None:
                self._keys[key.text] = (key.fingerprint, answer)
            self._news.notify_all()
            return None

    def end(self) -> int:
        """See Journal."""
        return len(self._records)

    def answered(self, key: Key) -> str | None:
        """See Journal."""
        return self._kept(key)

    def _kept(self, key: Key) -> str | None:
        fingerprint, answer = self._keys.get(key.text, (key.fingerprint, None))
        if fingerprint != key.fingerprint:
            raise KeyReused(f"key {key.text!r} was used for another request")
        return answer

    def read(self, after: int, limit: int) -> list[Envelope]:
        """See Journal."""
        found = self._records[after : after + limit]
        return [Envelope(after + n, record) for n, record in enumerate(found, start=1)]

    def wait(self, after: int, seconds: float) -> list[Envelope]:
        """See Journal."""
        with self._news:
            self._news.wait_for(lambda: len(self._records) > after, seconds)
            return self.read(after, len(self._records))

    def keep(self, version: str, files: dict[str, str]) -> None:
        """See BookStore."""
        self._books[version] = dict(files)

    def files(self, version: str) -> dict[str, str] | None:
        """See BookStore."""
        return self._books.get(version)
