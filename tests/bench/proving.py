"""A full proof's combinations per second, against resolving the same combinations and nothing else."""

from __future__ import annotations

import os
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace
from multiprocessing import get_context
from time import perf_counter

from recipes.asking.combinations import all_lines
from recipes.book import Book
from recipes.building.resolve import resolve
from recipes.model import Line, Refusal
from recipes.proof.prove import prove_part
from recipes.reading.reader import read_book
from service.bench.proving.proving import ProofStore, prove
from service.cli.books import DEMO
from tests.bench.figures import Figure, figure

ROUNDS = 5
PART = ("lemon_black_tea", "small")
"""A part of the demo book that takes about a second."""


def figures() -> list[Figure]:
    """Microseconds a combination of one part, and seconds of the whole menu, proved and merely resolved."""
    return [_part(), _whole_menu()]


def _part() -> Figure:
    book = _bounded(read_book(DEMO))
    drink, size = PART
    lines = [line for line in all_lines(book, drink) if line.size == size]
    ours, floor = [], []
    for _ in range(ROUNDS):
        begun = perf_counter()
        prove_part(book, drink, size)
        ours.append((perf_counter() - begun) / len(lines) * 1e6)
        begun = perf_counter()
        for line in lines:
            _resolved(book, line)
        floor.append((perf_counter() - begun) / len(lines) * 1e6)
    return figure("prove a combination", "µs", "resolve the same combination", ours, floor)


def _whole_menu() -> Figure:
    """As ``levelscoop prove`` does it, with nothing known from before; each is done once, on every core."""
    cores = os.cpu_count() or 1
    book = read_book(DEMO)
    begun = perf_counter()
    proving = prove(book, ProofStore(None), cores, lambda so_far: None)
    ours = perf_counter() - begun
    begun = perf_counter()
    with ProcessPoolExecutor(cores, get_context("spawn")) as pool:
        count = sum(pool.map(_resolve_drink, book.drinks))
    floor = perf_counter() - begun
    if count != proving.resolved:
        raise RuntimeError(f"{proving.resolved} combinations proved, {count} resolved: not the same work")
    name = f"prove the menu ({count:,} combinations, {count / ours:,.0f} a second)"
    floor_is = f"resolve the same, {cores} cores"
    return Figure(name, "s", ours, floor, ours / floor, ours, floor, 1, floor_is)


def _resolve_drink(drink: str) -> int:
    book, count = read_book(DEMO), 0
    for line in all_lines(book, drink):
        _resolved(book, line)
        count += 1
    return count


def _bounded(book: Book) -> Book:
    """The book with one topping a cup at most: the part stays small, each combination as it is."""
    return replace(book, toppings_max=1)


def _resolved(book: Book, line: Line) -> bool:
    try:
        resolve(book, line)
    except Refusal:
        return False
    return True
