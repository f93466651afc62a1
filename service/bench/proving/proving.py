"""Proving on several cores, with what is done kept in a folder: the next run goes on from there.

A part (a drink at one size) is proved in a child process and kept as ``<fingerprint>-<size>.json``. The
fingerprint covers all that the part depends on, so an edited recipe leaves the other drinks' parts good.
"""

from __future__ import annotations

import gc
import multiprocessing
import os
import signal
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from dataclasses import dataclass, field
from functools import cache
from multiprocessing.sharedctypes import Synchronized
from pathlib import Path

from pydantic import TypeAdapter, ValidationError

from recipes.asking.combinations import count
from recipes.book import Book
from recipes.proof.fingerprint import fingerprint
from recipes.proof.model import DrinkProof
from recipes.proof.prove import prove_part
from recipes.proof.tally import merged
from recipes.reading.reader import parse_book
from service.host.child import end_with

LOOK_S = 0.2
"""How often progress is told (s)."""


@cache
def _proofs() -> TypeAdapter[DrinkProof]:
    """What reads and writes a part; made when the first is, since making it takes a tenth of a start."""
    return TypeAdapter(DrinkProof)


Part = tuple[str, str]
"""A drink's id and a size's."""


class ProofStore:
    """Parts proved, in a folder of their own; with None nothing is kept."""

    def __init__(self, folder: Path | None) -> None:
        self._folder = folder

    def load(self, print_of: str, size: str) -> DrinkProof | None:
        """A part proved before; a file that cannot be read counts as none."""
        if self._folder is None:
            return None
        try:
            return _proofs().validate_json((self._folder / f"{print_of}-{size}.json").read_bytes())
        except (OSError, ValidationError):
            return None

    def keep(self, part: DrinkProof, size: str) -> None:
        """Keep a part; whoever reads meanwhile finds all of it or nothing."""
        if self._folder is None:
            return
        self._folder.mkdir(parents=True, exist_ok=True)
        place = self._folder / f"{part.fingerprint}-{size}.json"
        beside = place.with_suffix(f".{os.getpid()}.part")
        beside.write_bytes(_proofs().dump_json(part))
        beside.replace(place)


@dataclass
class Proving:
    """How far the proof of a book has come. ``resolved`` counts what was looked at in this run."""

    book: Book
    total: int
    parts: dict[Part, DrinkProof] = field(default_factory=dict)
    done: int = 0
    resolved: int = 0

    @property
    def complete(self) -> bool:
        """Whether every part is proved."""
        return len(self.parts) == sum(len(drink.sizes) for drink in self.book.drinks.values())

    def drinks(self) -> list[DrinkProof]:
        """The proofs of those drinks of which every size is done."""
        found = []
        for drink in self.book.drinks.values():
            parts = [self.parts[drink.id, size] for size in drink.sizes if (drink.id, size) in self.parts]
            if len(parts) == len(drink.sizes):
                found.append(merged(parts))
        return found


def load(book: Book, store: ProofStore) -> Proving:
    """What is known of a book's proof without resolving anything."""
    prints = {drink: fingerprint(book, drink) for drink in book.drinks}
    proving = Proving(book, sum(_count(book, drink, print_of) for drink, print_of in prints.items()))
    for drink in book.drinks.values():
        print_of = prints[drink.id]
        for size in drink.sizes:
            part = store.load(print_of, size)
            if part is not None:
                proving.parts[drink.id, size] = part
                proving.done += part.combinations
    return proving


_counts: dict[str, int] = {}


def _count(book: Book, drink: str, print_of: str) -> int:
    """How many combinations a drink has, counted once for each fingerprint."""
    if print_of not in _counts:
        if len(_counts) > 1000:
            _counts.clear()
        _counts[print_of] = count(book, drink)
    return _counts[print_of]


def prove(
    book: Book, store: ProofStore, jobs: int, on_progress: Callable[[Proving], None] = lambda proving: None
) -> Proving:
    """Prove what is not proved yet with ``jobs`` processes. KeyboardInterrupt leaves what is done kept."""
    proving = load(book, store)
    on_progress(proving)
    prints = {drink: fingerprint(book, drink) for drink in book.drinks}
    todo = [
        (drink.id, size)
        for drink in sorted(book.drinks.values(), key=lambda drink: -_count(book, drink.id, prints[drink.id]))
        for size in drink.sizes
        if (drink.id, size) not in proving.parts
    ]
    if not todo:
        return proving
    before = proving.done
    for place, part in _in_turn(book, todo, max(1, min(jobs, len(todo))), proving, on_progress):
        if part is not None:
            store.keep(part, place[1])
            proving.parts[place] = part
            proving.resolved += part.combinations
            proving.done = before + proving.resolved
        on_progress(proving)
    return proving


def _in_turn(
    book: Book, todo: list[Part], jobs: int, proving: Proving, on_progress: Callable[[Proving], None]
) -> Iterator[tuple[Part, DrinkProof | None]]:
    """Each part as it is done."""
    # Spawned, not forked: a fork of a process with threads or gevent inside may hang.
    context = multiprocessing.get_context("spawn")
    looked_at = context.Value("q", 0)
    before = proving.done
    pool = ProcessPoolExecutor(jobs, context, _begin, (os.getpid(), dict(book.files), looked_at))
    try:
        running: dict[Future[DrinkProof], Part] = {pool.submit(_prove, *place): place for place in todo}
        while running:
            finished, _ = wait(running, LOOK_S, FIRST_COMPLETED)
            proving.done = before + looked_at.value
            if not finished:
                on_progress(proving)
            for future in finished:
                yield running.pop(future), future.result()
        pool.shutdown()
    except BaseException:
        pool.shutdown(wait=False, cancel_futures=True)
        for child in multiprocessing.active_children():
            child.terminate()
        raise


_book: Book | None = None
_looked_at: Synchronized[int] | None = None


def _begin(parent: int, files: Mapping[str, str], looked_at: Synchronized[int]) -> None:
    """In a child: read the book once. Ctrl-C is the parent's to answer."""
    global _book, _looked_at
    end_with(parent)
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _book, _looked_at = parse_book(files), looked_at
    # What is made here lives as long as the part: looking for cycles in it, over and over, took a tenth of
    # the time.
    gc.disable()


def _prove(drink: str, size: str) -> DrinkProof:
    """In a child: one part."""
    assert _book is not None
    assert _looked_at is not None
    shared = _looked_at

    def tell(seen: int) -> None:
        with shared.get_lock():
            shared.value += seen

    found = prove_part(_book, drink, size, tell)
    # Parts have nothing in common: what this one left would be thrown away in the middle of the next.
    _book.memory.forget()
    gc.collect()
    return found
