"""The desk: all that one store's edges need, in one value, handed to every route and socket."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from recipes.book import Book
from service.books.builds import Builds
from service.books.shelf import BookShelf
from service.journal.follower import Follower
from service.journal.journal import Damaged, Journal
from service.orders.commands import OpenBook
from service.orders.events import lines_in
from service.orders.recent import Recent
from service.orders.subject import ORDERS, OrdersFold, OrdersHandler


@dataclass(frozen=True, slots=True)
class Desk:
    """One store in this process."""

    fold: OrdersFold
    handler: OrdersHandler
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
    builds = Builds(shelf)
    fold = OrdersFold(
        ORDERS, lambda events: builds.fetch_books(line for event in events for line in lines_in(event))
    )
    return Desk(
        fold=fold,
        handler=OrdersHandler(journal, ORDERS, fold, now, on_damage),
        recent=Recent(fold),
        shelf=shelf,
        builds=builds,
        follower=Follower(journal, fold, on_damage),
        journal=journal,
        now=now,
    )
