"""What edits would do to one line and to the whole book, before anything is saved."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from recipes.asking.lines import complete
from recipes.book import Book
from recipes.building.resolve import resolve
from recipes.model import Line, Refusal, ToppingChoice
from recipes.reading.faults import BookRefused, Fault
from recipes.reading.reader import parse_book
from service.bench.costing import money
from service.bench.editing.edits import EditRefused, apply
from service.bench.movers import movers
from service.bench.proposing import cells
from service.bench.wire import Edit, Outcome, SizeOutcome, Trial
from service.books.telling import build as told_build
from service.books.wire import BookFault, LineIn


def edited_book(
    files: Mapping[str, str],
    edits: Sequence[Edit],
    make: Callable[[Mapping[str, str], Sequence[Edit]], Mapping[str, str]] = apply,
    read: Callable[[Mapping[str, str]], Book] = parse_book,
) -> tuple[Book | None, list[BookFault]]:
    """The book after these edits, or its faults. ``make`` and ``read`` say where the work is done."""
    try:
        return read(make(files, edits)), []
    except EditRefused as refused:
        return None, [told(refused.fault)]
    except BookRefused as refused:
        return None, [told(fault) for fault in refused.faults]


def told(fault: Fault) -> BookFault:
    """A fault as the wire tells it."""
    return BookFault(
        file=fault.file,
        line=fault.line,
        key=fault.key,
        found=fault.found,
        accepted=fault.accepted,
        message=fault.message,
    )


def trial(before: Book, after: Book, asked: LineIn) -> Trial:
    """One line in both books, at every size; and the drinks that move."""
    was, now = outcome(before, asked), outcome(after, asked)
    return Trial(
        version=after.version,
        faults=[],
        before=was,
        after=now,
        sizes=_sizes(before, after, asked),
        movers=movers(before, after),
        amounts=cells(after, asked.drink),
    )


def refused(faults: list[BookFault]) -> Trial:
    """A trial of edits that the book refuses."""
    return Trial(version="", faults=faults, before=None, after=None, sizes=[], movers=[], amounts=[])


def whole(book: Book, asked: LineIn) -> Line:
    """The line with the drink's defaults. Raises Refusal."""
    toppings = tuple(ToppingChoice(each.topping, each.half) for each in asked.toppings)
    return complete(
        book,
        asked.drink,
        asked.size,
        asked.sugar,
        asked.ice,
        asked.shots,
        toppings,
        asked.milk,
        tuple(asked.without),
    )


def outcome(book: Book, asked: LineIn) -> Outcome:
    """A line in a book: its build and money, or why it is refused."""
    try:
        return _made(book, whole(book, asked))
    except Refusal as refusal:
        return _refused(None, refusal)


def _made(book: Book, line: Line) -> Outcome:
    try:
        build = resolve(book, line)
    except Refusal as refusal:
        return _refused(line, refusal)
    return Outcome(
        line=line,
        build=told_build(build),
        balance=build.balance,
        energy_words=build.energy_words,
        errors=list(build.errors),
        money=money(book, line, build),
        refusal=None,
    )


def _refused(line: Line | None, refusal: Refusal) -> Outcome:
    return Outcome(
        line=line, build=None, balance=None, energy_words="", errors=[], money=None, refusal=refusal.message
    )


def _sizes(before: Book, after: Book, asked: LineIn) -> list[SizeOutcome]:
    found: list[SizeOutcome] = []
    sizes = {**before.sizes, **after.sizes}
    for size in sizes.values():
        offered = [
            asked.drink in book.drinks and size.id in book.drinks[asked.drink].sizes
            for book in (before, after)
        ]
        if not any(offered):
            continue
        at_size = asked.model_copy(update={"size": size.id})
        was, now = outcome(before, at_size), outcome(after, at_size)
        found.append(
            SizeOutcome(
                size=size.id,
                name=size.name,
                before=was,
                after=now,
                before_error_pct=_error(was),
                after_error_pct=_error(now),
            )
        )
    return found


def _error(told: Outcome) -> float | None:
    if told.build is None:
        return None
    return round(max((abs(error.error_pct) for error in told.errors), default=0.0), 2)
