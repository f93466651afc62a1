"""The heat map of a proof: for each choice that the register offers, how many of the combinations with it are
built, and what those come to."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace

from recipes.asking.lines import own_milk
from recipes.book import Book
from recipes.model import Line, ToppingChoice
from recipes.proof.model import HeatCell
from recipes.telling import words

Column = tuple[str, str]
"""A modifier and one of its values."""


@dataclass(slots=True)
class _Cell:
    built: int = 0
    refused: int = 0
    total: float = 0.0
    worst: float = 0.0
    fussy: int = 0
    seconds: float = 0.0

    def add(self, other: _Cell) -> None:
        self.built += other.built
        self.refused += other.refused
        self.total += other.total
        self.worst = max(self.worst, other.worst)
        self.fussy += other.fussy
        self.seconds += other.seconds


@dataclass(slots=True)
class Heat:
    """The heat map of one drink, or of a part of its combinations, while it is added up.

    A combination counts in a column for each of its choices, eight or so: it is added to the cell of what is
    without toppings, and to that of its toppings, and those to the columns at the end.
    """

    _drinks: dict[tuple[str, int, str, int, str | None, tuple[str, ...]], _Cell] = field(default_factory=dict)
    _toppings: dict[tuple[ToppingChoice, ...], _Cell] = field(default_factory=dict)

    def add_refused(self, line: Line) -> None:
        """One combination refused."""
        for cell in self._of(line):
            cell.refused += 1

    def add_built(self, line: Line, error_pct: float, fussy: bool, seconds: float) -> None:
        """One combination built: its worst error, and what it asks of hands."""
        for cell in self._of(line):
            cell.built += 1
            cell.total += error_pct
            if error_pct > cell.worst:
                cell.worst = error_pct
            cell.fussy += fussy
            cell.seconds += seconds

    def _of(self, line: Line) -> tuple[_Cell, _Cell]:
        key = (line.size, line.sugar, line.ice, line.shots, line.milk, line.without)
        drink, toppings = self._drinks.get(key), self._toppings.get(line.toppings)
        if drink is None:
            drink = self._drinks[key] = _Cell()
        if toppings is None:
            toppings = self._toppings[line.toppings] = _Cell()
        return drink, toppings

    def cells(self, book: Book, drink: str) -> tuple[HeatCell, ...]:
        """The cells that a drink has, in the order of the columns. The recipe's own milk is no choice."""
        found: dict[Column, _Cell] = {}
        for (size, sugar, ice, shots, milk, without), of_drink in self._drinks.items():
            chosen = [("size", size), ("sugar", str(sugar)), ("ice", ice), ("shots", str(shots))]
            chosen += [] if milk is None else [("milk", milk)]
            _spread(found, [*chosen, *(("without", ingredient) for ingredient in without)], of_drink)
        for toppings, of_them in self._toppings.items():
            _spread(found, [("topping", choice.topping) for choice in toppings] or [("topping", "")], of_them)
        own = own_milk(book, book.drinks[drink])
        return tuple(
            _told(modifier, value, name, cell)
            for modifier, value, name in columns(book)
            if (cell := found.get((modifier, value))) is not None and (modifier, value) != ("milk", own)
        )


def _spread(found: dict[Column, _Cell], chosen: Iterable[Column], cell: _Cell) -> None:
    for column in chosen:
        found.setdefault(column, _Cell()).add(cell)


def _told(modifier: str, value: str, name: str, cell: _Cell) -> HeatCell:
    return HeatCell(
        modifier=modifier,
        value=value,
        name=name,
        built=cell.built,
        refused=cell.refused,
        mean_pct=round(cell.total / cell.built, 4) if cell.built else 0.0,
        worst_pct=round(cell.worst, 4),
        fussy=cell.fussy,
        seconds=round(cell.seconds / cell.built, 4) if cell.built else 0.0,
    )


def columns(book: Book) -> list[tuple[str, str, str]]:
    """Every column of a book's heat map in order: modifier, value, name for people."""
    found = [("size", size.id, size.name) for size in book.sizes.values()]
    found += [("sugar", str(sugar.percent), sugar.name) for sugar in book.sugars.values()]
    found += [("ice", ice.id, ice.name) for ice in book.ices.values()]
    most = max((drink.shots for drink in book.drinks.values()), default=0)
    names = ("no extra shot", "1 extra shot")
    found += [("shots", str(n), names[n] if n < 2 else f"{n} extra shots") for n in range(most + 1)]
    found += [("topping", "", "no topping"), *(("topping", t.id, t.name) for t in book.toppings.values())]
    found += [("milk", milk.id, milk.name) for milk in book.milks.values()]
    left = dict.fromkeys(id for drink in book.drinks.values() for id in drink.without)
    found += [("without", id, f"no {words.left_out_name(book, id)}") for id in left]
    return found


def merged_heat(parts: Sequence[Sequence[HeatCell]]) -> tuple[HeatCell, ...]:
    """The heat maps of a drink's parts as one."""
    found: dict[tuple[str, str], list[HeatCell]] = {}
    for cell in (cell for part in parts for cell in part):
        found.setdefault((cell.modifier, cell.value), []).append(cell)
    cells = []
    for same in found.values():
        built = sum(cell.built for cell in same)
        cells.append(
            replace(
                same[0],
                built=built,
                refused=sum(cell.refused for cell in same),
                mean_pct=round(sum(cell.mean_pct * cell.built for cell in same) / built, 4) if built else 0.0,
                worst_pct=max(cell.worst_pct for cell in same),
                fussy=sum(cell.fussy for cell in same),
                seconds=round(sum(cell.seconds * cell.built for cell in same) / built, 4) if built else 0.0,
            )
        )
    order = {"size": 0, "sugar": 1, "ice": 2, "shots": 3, "topping": 4, "milk": 5, "without": 6}
    return tuple(sorted(cells, key=lambda cell: order[cell.modifier]))
