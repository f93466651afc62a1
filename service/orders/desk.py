"""The desk: all that one store's edges need, in one value, handed to every route and socket."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from recipes.book import Book
from service.books.builds import Builds
from service.books.shelf import BookShelf
from service.journal.fold import Fold
from service.journal.follower import Follower
from service.journal.handler import Handler
from service.journal.journal import Damaged, Journal
from service.orders.commands import OpenBook
from service.orders.recent import Recent
from service.times.history import History


@dataclass(frozen=True, slots=True)
class Desk:
    """One store in this process."""

    fold: Fold
    handler: Handler
    history: History
    recent: Recent
    shelf: BookShelf
    builds: Builds
    follower: Follower
    journal: Journal
    now: Callable[[], int]

    def book(self) -> Book | None:
        """The book in force. May raise Unavailable."""
        version = self.fold.state.book
        return None if version is None else self.shelf.book(version)

    def open_folder(self) -> bool:
        """Bring the folder's book into force if it can be read; tell whether it could.

        May raise Unavailable.
        """
        book = self.shelf.read_folder()
        if book is None:
            return False
        self.handler.handle(opening(book), lambda events, position: "")
        return True


def opening(book: Book, anyway: bool = False) -> OpenBook:
    """The command that brings a book into force, with all of it that the bar goes by."""
    hours, _, minutes = book.shop.day_starts.partition(":")
    return OpenBook(
        version=book.version,
        time_zone=book.shop.time_zone,
        day_starts_min=int(hours) * 60 + int(minutes),
        anyway=anyway,
        last_touch=book.floor.bump == "last touch",
    )


def make_desk(
    journal: Journal,
    shelf: BookShelf,
    now: Callable[[], int],
    on_damage: Callable[[Damaged], None],
) -> Desk:
    """A desk at a journal, not yet caught up. Nothing is connected or started."""
    fold = Fold()
    return Desk(
        fold=fold,
        handler=Handler(journal, fold, now, on_damage),
        history=History(fold, journal),
        recent=Recent(fold),
        shelf=shelf,
        builds=Builds(shelf),
        follower=Follower(journal, fold, on_damage),
        journal=journal,
        now=now,
    )
