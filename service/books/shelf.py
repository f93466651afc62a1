"""The books of a store: the one in the folder, watched, and those kept by version."""

from __future__ import annotations

import threading
from collections.abc import Callable
from pathlib import Path

from recipes.book import Book
from recipes.reading.faults import BookRefused, Fault
from service.books.reading import Reader
from service.host.log import LOG
from service.journal.journal import BookStore

LOOK_S = 1.0
"""How often the folder is looked at (s)."""

Signature = tuple[tuple[str, int, int], ...]


class BookShelf:
    """Reads the folder and keeps every book met. ``faults`` are those of the folder as last read."""

    def __init__(self, folder: Path, store: BookStore, reader: Reader | None = None) -> None:
        self._folder = folder
        self._store = store
        self._books: dict[str, Book] = {}
        self._unreadable: set[str] = set()
        self._fetching = threading.RLock()
        self.reader = reader or Reader()
        self.faults: tuple[Fault, ...] = ()

    def read_folder(self) -> Book | None:
        """The book in the folder, kept in the store; None, with ``faults``, when it is refused.

        May raise Unavailable.
        """
        try:
            book = self.reader.folder(self._folder)
        except BookRefused as refused:
            self.faults = refused.faults
            return None
        self.keep(book)
        self.faults = ()
        return book

    def keep(self, book: Book) -> None:
        """Keep a book in memory and in the store. May raise Unavailable."""
        if book.version not in self._books:
            self._store.keep(book.version, dict(book.files))
            self._books[book.version] = book

    def files(self, version: str) -> dict[str, str] | None:
        """The files of a version as they were kept; None if it is nowhere. May raise Unavailable."""
        return self._store.files(version)

    def book(self, version: str) -> Book | None:
        """A book by its version, from memory or the store; None if it is nowhere or no longer readable.

        The version that the files make today may differ from the one asked for: the rules of the
        resolver count in it too. It is kept by that one as well, since lines are rung in with it. May raise
        Unavailable.
        """
        if version not in self._books:
            with self._fetching:
                self._fetch(version)
        return self._books.get(version)

    def _fetch(self, version: str) -> None:
        """Read a kept book, once: others may ask for it meanwhile, and a refused one stays refused."""
        if version in self._books or version in self._unreadable:
            return
        files = self._store.files(version)
        if files is None:
            return
        try:
            book = self.reader.files(files)
        except BookRefused:
            self._unreadable.add(version)
            return
        if book.version != version:
            self.keep(book)
        self._books[version] = book

    def signature(self) -> Signature:
        """Names, times and sizes of the folder's files: equal as long as nobody wrote there."""
        found: list[tuple[str, int, int]] = []
        for path in sorted(self._folder.rglob("*")):
            try:
                about = path.lstat()
            except OSError:
                continue
            found.append((str(path.relative_to(self._folder)), about.st_mtime_ns, about.st_size))
        return tuple(found)


class BookWatch:
    """Looks at the shelf's folder in a thread of its own; calls ``on_change`` when it was written to.

    ``on_change`` tells whether it could deal with the change; if not, or if it fails, it is called again
    later: nothing ends the watch but ``stop``. Changes count from when the watch is made: make it before the
    folder is first read, and none is missed.
    """

    def __init__(self, shelf: BookShelf, on_change: Callable[[], bool], every_s: float = LOOK_S) -> None:
        self._shelf = shelf
        self._on_change = on_change
        self._every_s = every_s
        self._seen: Signature | None = shelf.signature()
        self._failed = ""
        self._stop = threading.Event()
        self._thread = threading.Thread(target=self._run, name="book watch", daemon=True)

    def start(self, unread: bool = False) -> None:
        """Begin to watch; a folder that nobody has read yet counts as changed."""
        if unread:
            self._seen = None
        self._thread.start()

    def stop(self) -> None:
        """End watching and wait for it."""
        self._stop.set()
        self._thread.join()

    def _run(self) -> None:
        wait = 0.0 if self._seen is None else self._every_s
        while not self._stop.wait(wait):
            wait = self._every_s
            try:
                now = self._shelf.signature()
                if now != self._seen and self._on_change():
                    self._seen = now
                self._failed = ""
            except Exception as error:
                self._tell(f"{type(error).__name__}: {error}")

    def _tell(self, failed: str) -> None:
        """Log a failure, once for as long as it stays the same."""
        if failed != self._failed and not self._stop.is_set():
            LOG.error("The book's folder could not be looked at, which is tried again and again: %s", failed)
        self._failed = failed
