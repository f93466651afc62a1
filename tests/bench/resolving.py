"""Resolve per drink, met before and for the first time, against validating the same line with pydantic.

A shop that is open has met most drinks: a book remembers what it worked out, and only words, balance and
steps are put together anew. The first time, plan, target and search come on top; a book forgets all before
each.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import count, islice

from recipes.asking.lines import complete
from recipes.book import Book
from recipes.building.resolve import resolve
from recipes.model import Line, Refusal, ToppingChoice
from recipes.reading.reader import read_book
from service.books.builds import Builds
from service.books.menu import menu
from service.books.shelf import BookShelf
from service.books.wire import LineIn
from service.cli.books import DEMO
from service.journal.memory import MemoryJournal
from service.rush.customers import rush
from tests.bench.figures import Figure, figure, in_turn, scaled

LINES = 400
ROUNDS = 5


def lines(book: Book) -> Iterator[tuple[LineIn, Line]]:
    """Lines as one rush after another rings them in, those that can be built."""
    register = menu(book.version, book, (), Builds(BookShelf(DEMO, MemoryJournal())))
    for seed in count(1):
        for arrival in rush(register, seed, 20, 60.0):
            for drink in arrival.order.drinks:
                try:
                    line = _whole(book, drink.line)
                    resolve(book, line)
                except Refusal:
                    continue
                yield drink.line, line


def _whole(book: Book, asked: LineIn) -> Line:
    toppings = [ToppingChoice(each.topping, each.half) for each in asked.toppings]
    return complete(
        book,
        asked.drink,
        asked.size,
        asked.sugar,
        asked.ice,
        asked.shots,
        toppings,
        asked.milk,
        asked.without,
    )


def figures() -> list[Figure]:
    """Two figures, microseconds a drink."""
    book = read_book(DEMO)
    drinks = list(islice(lines(book), LINES))
    raw = [asked.model_dump_json() for asked, _ in drinks]

    def anew(turn: int) -> None:
        # Clearing four small mappings is counted with it, and is next to nothing.
        for memory in (book.memory.plans, book.memory.made, book.memory.toppings, book.memory.allergens):
            memory.clear()
        resolve(book, drinks[turn % LINES][1])

    warm, floor = in_turn(
        ROUNDS * LINES,
        lambda turn: resolve(book, drinks[turn % LINES][1]),
        lambda turn: LineIn.model_validate_json(raw[turn % LINES]),
    )
    # Held against the same floor: beside so much work a validation would be slower, and the ratio flattered.
    cold, _ = in_turn(LINES, anew, lambda turn: None)
    return [
        figure(name, "µs", "pydantic validates the same line", scaled(ours, 1e6), scaled(floor, 1e6))
        for name, ours in (("resolve a drink met before", warm), ("resolve a drink, the first time", cold))
    ]
