"""Reading books apart from the shop's loop, within a limit of work, with a fault for whatever goes wrong."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from traceback import walk_tb
from types import FrameType
from typing import Any

from recipes.book import Book, Drink
from recipes.reading.faults import BookRefused, Fault
from recipes.reading.reader import parse_book, read_book
from recipes.reading.table import Page, Table
from service.books.folder import read_texts
from service.host.apart import Apart, TooLong, WorkFailed

READ_S = 20.0
"""How much work the reading of one book may be (s of the processor); the demo book takes half a second."""

WHOLE = "(book)"
"""What a fault names when nobody knows the file."""


class Reader:
    """Reads books in this process, or ``apart`` from it. Both ways a book is read or refused, never more."""

    def __init__(self, apart: Apart | None = None, limit_s: float = READ_S) -> None:
        self._apart = apart
        self._limit_s = limit_s

    def folder(self, folder: Path) -> Book:
        """The book in a folder. Raises BookRefused."""
        return self._read(_folder, folder)

    def files(self, files: Mapping[str, str]) -> Book:
        """The book in these files. Raises BookRefused."""
        return self._read(_files, dict(files))

    def _read(self, read: Callable[[Any, float], Found], source: object) -> Book:
        try:
            if self._apart is None:
                found = read(source, self._limit_s)
            else:
                found = self._apart.do(read, source, self._limit_s, limit_s=self._limit_s)
        except TooLong:
            # It did not come to saying where.
            found = (_too_much(WHOLE, self._limit_s),)
        except WorkFailed as failed:
            found = (_unreadable(WHOLE, 1, str(failed)),)
        if isinstance(found, Book):
            return found
        raise BookRefused(found)


Found = Book | tuple[Fault, ...]


def _folder(folder: Path, limit_s: float) -> Found:
    return _attempt(lambda: read_book(folder), lambda: read_texts(folder), limit_s)


def _files(files: Mapping[str, str], limit_s: float) -> Found:
    return _attempt(lambda: parse_book(files), lambda: files, limit_s)


def _attempt(read: Callable[[], Book], texts: Callable[[], Mapping[str, str]], limit_s: float) -> Found:
    """A book, or its faults. What the reader did not foresee is a fault too: the shop must go on."""
    try:
        return read()
    except BookRefused as refused:
        return refused.faults
    except TooLong as long:
        return (_too_much(_place(long, texts())[0], limit_s),)
    except Exception as error:
        file, line = _place(error, texts())
        words = str(error)
        what = type(error).__name__
        return (_unreadable(file, line, what if "<class" in words or not words else f"{what}: {words}"),)


def _too_much(file: str, limit_s: float) -> Fault:
    found, accepted = f"more than {limit_s:g} s of work", f"at most {limit_s:g} s of work"
    message = (
        f"takes {found} to read and check, and was given up; accepted: {accepted}. "
        "Look at the amounts and tools that were changed last"
    )
    return Fault(file, 1, "(file)", found, accepted, message)


def _unreadable(file: str, line: int, why: str) -> Fault:
    accepted = "what the reader can deal with"
    message = f"stopped the reader ({why}); accepted: {accepted}. Look at what was changed last"
    return Fault(file, line, "(file)", why, accepted, message)


def _place(error: BaseException, texts: Mapping[str, str]) -> tuple[str, int]:
    """File and line that were being read when an exception was raised, as far as its frames tell."""
    names = {text: name for name, text in texts.items()}
    file, line = WHOLE, 1
    for frame, _ in walk_tb(error.__traceback__):
        for value in frame.f_locals.values():
            match value:
                case Page():
                    file, line = value.file, 1
                case Table():
                    file, line = value.page.file, 1
                case Drink():
                    file, line = f"drinks/{value.id}.toml", 1
                case str() if value in names:
                    file, line = names[value], _line(frame, value)
    return file, line


def _line(frame: FrameType, text: str) -> int:
    """The line of a text that a parser is at: tomllib's functions know it as ``pos``."""
    at = frame.f_locals.get("pos")
    return text.count("\n", 0, at) + 1 if isinstance(at, int) else 1
