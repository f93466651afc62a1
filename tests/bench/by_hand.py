"""What the builds ask of hands, over the whole menu and in rushes, beside the figures of rules 5."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field
from functools import reduce
from multiprocessing import get_context

from recipes.asking.combinations import all_lines
from recipes.asking.lines import complete
from recipes.book import Book
from recipes.building.resolve import resolve
from recipes.hands import fuss, seconds
from recipes.model import HOT, Build, Line, Refusal, ToppingChoice
from recipes.reading.reader import read_book
from service.books.menu import menu as menu_of
from service.cli.books import DEMO
from service.rush.customers import rush
from tests.bench.figures import Figure

RUSHES, ORDERS, LENGTH_S = 40, 60, 1800.0
"""Seeded rushes, how many customers come in each, and within how long."""

BIN_PCT = 0.1
"""Errors are counted by bins so wide."""

BEFORE = {"fussy": 68.3, "two tools": 28.9, "plain": 64.4, "rush": 52.0}
"""Per cent, as tried on the demo book with rules 5 and its quarter scoop, thimble and jigger marked by 2.5
ml; "plain" are 27 of 51 iced and 29 of 36 hot lines as they come."""

ASKED = {"fussy": 3.0, "plain": 0.0, "rush": 5.0, "median": 3.0, "p95": 12.0, "steps": 0.5}
"""What the demo book is held to."""


@dataclass
class Tally:
    """Builds counted: fussy ones by kind, errors of parts by bins, the sweetener furthest off in its
    steps.
    """

    built: int = 0
    kinds: Counter[str] = field(default_factory=Counter)
    fussy: int = 0
    seconds: float = 0.0
    parts: Counter[int] = field(default_factory=Counter)
    steps: float = 0.0

    def add(self, book: Book, build: Build) -> None:
        """One more build."""
        kinds: set[str] = set()
        tools: dict[str, set[str]] = {}
        for step in build.steps:
            if step.amount is None or step.ingredient is None:
                continue
            measure = book.tools[step.amount.tool].measure(step.amount.count)
            self.seconds += seconds(book.hands, measure)
            tools.setdefault(step.ingredient, set()).add(step.amount.tool)
            found = fuss(measure)
            kinds |= {found} if found else set()
        if any(len(used) > 1 for used in tools.values()):
            kinds.add("two tools")
        self.built += 1
        self.fussy += bool(kinds)
        self.kinds.update(kinds)
        recipe = book.drinks[build.line.drink].steps
        sweet = {step.ingredient: step.by_size for step in recipe if step.role == "sweetener"}
        for error in build.errors:
            if error.ingredient not in sweet:
                self.parts[round(abs(error.error_pct) / BIN_PCT)] += 1
                continue
            amount = next(iter(sweet[error.ingredient].values()))
            off_ml = abs(error.given_g - error.wanted_g) / book.pantry[error.ingredient].density
            self.steps = max(self.steps, off_ml / book.tools[amount.tool].step_ml)

    def quantile(self, share: float) -> float:
        """The error of a part that this share of them does not pass, per cent."""
        wanted, seen = share * self.parts.total(), 0
        for place in sorted(self.parts):
            seen += self.parts[place]
            if seen >= wanted:
                return place * BIN_PCT
        return 0.0

    def plus(self, other: Tally) -> Tally:
        """Both together."""
        return Tally(
            self.built + other.built, self.kinds + other.kinds, self.fussy + other.fussy,
            self.seconds + other.seconds, self.parts + other.parts, max(self.steps, other.steps),
        )  # fmt: skip


def figures() -> list[Figure]:
    """The whole menu, its plain lines, and forty rushes."""
    book = read_book(DEMO)
    with ProcessPoolExecutor(2, get_context("spawn")) as pool:
        menu = reduce(Tally.plus, pool.map(_of_drink, book.drinks))
    plain, busy = counted(book, _plain(book)), counted(book, _rushes(book))
    pairs = 100 * menu.kinds["two tools"] / menu.built
    print(f"  by kind: {dict(menu.kinds) or 'none'}; {menu.seconds / menu.built:.1f} s of measuring a drink")
    return [
        _figure("fussy builds of the menu", "%", _share(menu), "fussy", menu.built),
        _figure("two tools for one ingredient", "%", pairs, "two tools", menu.built),
        _figure("fussy plain lines", "%", _share(plain), "plain", plain.built),
        _figure("fussy drinks of forty rushes", "%", _share(busy), "rush", busy.built),
        _figure("error of a part, median", "%", menu.quantile(0.5), "median", menu.parts.total()),
        _figure("error of a part, 95 of 100", "%", menu.quantile(0.95), "p95", menu.parts.total()),
        _figure("worst sweetener, in its steps", "", menu.steps, "steps", menu.built),
    ]  # fmt: skip


def counted(book: Book, lines: Iterable[Line]) -> Tally:
    """Every line that is built."""
    tally = Tally()
    for line in lines:
        try:
            tally.add(book, resolve(book, line))
        except Refusal:
            continue
    return tally


def _share(tally: Tally) -> float:
    return 100 * tally.fussy / tally.built


def _figure(name: str, unit: str, ours: float, key: str, count: int) -> Figure:
    """Ours against the figure before, or against what is asked for where there was none."""
    floor = BEFORE.get(key, ASKED.get(key, 0.0))
    asked = f", asked: at most {ASKED[key]:g}" if key in ASKED else ""
    of = f"{'rules 5' if key in BEFORE else 'what is asked'}{asked}"
    return Figure(name, unit, ours, floor, ours / floor if floor else ours, 0.0, 0.0, count, of)


def _of_drink(drink: str) -> Tally:
    book = read_book(DEMO)
    return counted(book, all_lines(book, drink))


def _plain(book: Book) -> Iterator[Line]:
    """Every drink at every size as it comes, iced and hot."""
    for drink in book.drinks.values():
        for size in drink.sizes:
            for ice in dict.fromkeys((drink.default.ice, *((HOT,) if HOT in drink.ices else ()))):
                yield complete(book, drink.id, size=size, ice=ice)


def _rushes(book: Book) -> Iterator[Line]:
    """What the customers of the demo's own rushes order."""
    offered = menu_of(book.version, book, [], None)
    for seed in range(RUSHES):
        for arrival in rush(offered, seed, ORDERS, LENGTH_S):
            for drink in arrival.order.drinks:
                ordered = drink.line
                toppings = [ToppingChoice(each.topping, each.half) for each in ordered.toppings]
                yield complete(
                    book, ordered.drink, ordered.size, ordered.sugar, ordered.ice, ordered.shots, toppings,
                    ordered.milk, ordered.without,
                )  # fmt: skip
