"""Builds by their id, worked out once and again when needed: events only say which line of which book."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Callable, Mapping
from dataclasses import replace

from pydantic import TypeAdapter, ValidationError

from recipes.book import Book
from recipes.model import Balance, Build, Duration, Fill, Line, Refusal, Step
from recipes.proof.verdict import refuse_unproved
from recipes.resolve import resolve
from service.core.bar.events import RungLine
from service.edges.book_shelf import BookShelf
from service.journal import Unavailable

KEPT = 4096
"""How many builds are held; an ordinary day has a few hundred different ones."""

_LINE = TypeAdapter(Line)
_NO_BALANCE = Balance(0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
_NO_FILL = Fill((), 0.0, 0.0, 0.0, 0.0, "", 0.0, 0.0)


def line_as_data(line: Line) -> Mapping[str, object]:
    """A line as it stands in an event."""
    found: dict[str, object] = _LINE.dump_python(line, mode="json")
    return found


class Builds:
    """Builds held in memory, the least lately used let go first; safe to use from several threads."""

    def __init__(self, shelf: BookShelf) -> None:
        self._shelf = shelf
        self._held: OrderedDict[str, Build] = OrderedDict()
        self._by_line: dict[tuple[str, Line], str] = {}
        self._lock = threading.Lock()
        self.doubted: Callable[[Book], bool] = lambda book: False

    def resolve(self, book: Book, line: Line) -> Build:
        """The build of a whole line. Raises Refusal.

        Each line of a book that is ``doubted`` (its proof is not known to hold) is proved by itself.
        """
        with self._lock:
            known = self._held.get(self._by_line.get((book.version, line), ""))
        if known is not None:
            return known
        build = resolve(book, line)
        if self.doubted(book):
            refuse_unproved(book, build)
        with self._lock:
            self._by_line[book.version, line] = build.id
        self._keep(build)
        return build

    def of(self, rung: RungLine) -> Build:
        """The build of a line rung in, worked out again from the book of that time if need be.

        A book or a rule that has gone since makes it a stand-in that says so, never another drink.
        """
        with self._lock:
            known = self._held.get(rung.build)
            if known is not None:
                self._held.move_to_end(rung.build)
                return known
        try:
            build = self._again(rung)
        except Unavailable:
            return _stand_in(rung, "The book of this drink cannot be fetched right now: see the recipe.")
        self._keep(build)
        return build

    def _keep(self, build: Build) -> None:
        with self._lock:
            self._held[build.id] = build
            if len(self._held) > KEPT:
                gone, _ = self._held.popitem(last=False)
                self._by_line = {key: id for key, id in self._by_line.items() if id != gone}

    def _again(self, rung: RungLine) -> Build:
        book = self._shelf.book(rung.book)
        if book is None:
            return _stand_in(rung, "The book this drink was rung in with is gone: build it from the recipe.")
        try:
            build = resolve(book, _LINE.validate_python(rung.line))
        except (Refusal, ValidationError) as fault:
            return _stand_in(rung, f"This build could not be worked out again ({fault}): see the recipe.")
        if build.id == rung.build:
            return build
        note = "Worked out again by newer rules: compare with the recipe."
        return replace(build, id=rung.build, notes=(note, *build.notes))


def _stand_in(rung: RungLine, caution: str) -> Build:
    """What can be said of a build from the event alone: its stations and labels, no amounts."""
    steps = tuple(
        Step(
            number=n,
            station=work.station,
            action="see the recipe",
            text=work.label,
            short=work.label,
            ingredient=None,
            amount=None,
            duration=Duration(work.low_s, work.high_s, attended=True) if work.high_s else None,
            caution=None,
        )
        for n, work in enumerate(rung.work, start=1)
    )
    return Build(
        id=rung.build,
        book=rung.book,
        line=_LINE.validate_python(rung.line),
        title=rung.title,
        words=rung.words,
        steps=steps,
        fill=_NO_FILL,
        balance=_NO_BALANCE,
        allergens=(),
        cautions=(caution, "Allergens are not known here: ask before handing it over."),
        notes=(),
        uses=rung.uses,
    )
