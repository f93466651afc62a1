"""Builds by their id, worked out once and again when needed: events only say which line of which book."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace

from pydantic import TypeAdapter, ValidationError

from recipes.book import Book
from recipes.building.resolve import resolve
from recipes.model import Balance, Build, Caution, Duration, Fill, Line, Note, Refusal, Step, ToppingChoice
from recipes.proof.verdict import refuse_unproved
from service.books.rung import RungLine
from service.books.shelf import BookShelf
from service.journal.journal import Unavailable

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
        self._doubted: Callable[[Book], bool] = lambda book: False

    def hold_to_proof(self, doubted: Callable[[Book], bool]) -> None:
        """From now on each line of a book that is ``doubted``, its proof not known to hold, is proved by
        itself.
        """
        self._doubted = doubted

    def resolve(self, book: Book, line: Line) -> Build:
        """The build of a whole line. Raises Refusal."""
        with self._lock:
            known = self._held.get(self._by_line.get((book.version, line), ""))
            if known is not None:
                self._held.move_to_end(known.id)
                return known
        build = resolve(book, line)
        if self._doubted(book):
            refuse_unproved(book, build)
        with self._lock:
            self._by_line[book.version, line] = build.id
        self._keep(build)
        return build

    def fetch_books(self, lines: Iterable[RungLine]) -> None:
        """Have the books of lines at hand, so that ``of`` need not fetch them. May raise Unavailable."""
        for version in dict.fromkeys(line.book for line in lines):
            self._shelf.book(version)

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
        note = Note("newer rules", "Worked out again by newer rules: compare with the recipe.")
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
        line=_readable(rung),
        title=rung.title,
        words=rung.words,
        steps=steps,
        fill=_NO_FILL,
        balance=_NO_BALANCE,
        allergens=(),
        cautions=(
            Caution("no recipe", caution),
            Caution("allergens unknown", "Allergens are not known here: ask before handing it over."),
        ),
        notes=(),
        uses=rung.uses,
    )


def _readable(rung: RungLine) -> Line:
    """What can be read of a line as it was written down; the rest as if nothing had been said."""
    told = rung.line if isinstance(rung.line, Mapping) else {}

    def text(name: str, usual: str) -> str:
        found = told.get(name)
        return found if isinstance(found, str) else usual

    def number(name: str, usual: int) -> int:
        found = told.get(name)
        return found if isinstance(found, int) and not isinstance(found, bool) else usual

    def parts(name: str) -> list[object]:
        found = told.get(name)
        return list(found) if isinstance(found, list | tuple) else []

    toppings = [each for each in parts("toppings") if isinstance(each, Mapping)]
    return Line(
        drink=text("drink", rung.item),
        size=text("size", ""),
        sugar=number("sugar", 100),
        ice=text("ice", ""),
        shots=number("shots", 0),
        toppings=tuple(
            ToppingChoice(str(each["topping"]), each.get("half") is True)
            for each in toppings
            if "topping" in each
        ),
        milk=text("milk", "") or None,
        without=tuple(each for each in parts("without") if isinstance(each, str)),
    )
