"""Recipe cards to print: A5 across, a drink a card, its sizes side by side, from the bar's own builds."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from recipes.balance.labels import grams_words
from recipes.book import Book, Topping
from recipes.building.resolve import resolve
from recipes.building.steps import amount_words
from recipes.measures import COUNTED, amount
from recipes.model import HOT, Build, Line, Refusal
from service.bench.movers import usual_lines
from service.learning.card_cup import draw_cup
from service.learning.card_rows import CardRow, Level, card_rows, holding, level_rows, said, unshaken
from service.learning.paper import MARGIN, Paper

A5_MM = (148.0, 210.0)
"""ISO 216."""

ROW_MM = (4.3, 5.6)
"""The lowest and highest that a row of the table is, mm; between them, what the page has room for."""

FACT = 4.2
"""Height of a row of what the drink comes to, mm."""

LINE = 3.8
"""Height of a line of what must be told, mm."""

LEVEL = 3.5
"""Height of a row of the sugar and ice levels, mm."""

LEVELS = 36.0
"""Width of their unit and sizes, mm."""

NAMES = 68.0
"""Width of the stations and steps, mm."""

CUP_MM = (12.0, 26.0)
"""The lowest and highest that the largest cup is drawn; between them, what the page has room for."""

MOST_TALLIES = 12
"""More marks than this cannot be counted at a glance: the figure alone is printed."""


def cards(book: Book, drinks: Sequence[str], now: int, size: str | None = None) -> bytes:
    """The PDF of these drinks' cards, at one size or all of them.

    ``now`` in ms since 1970 UTC is printed as a date of the shop's.
    """
    sheet = _Sheet(book, now)
    for drink in drinks:
        for lines in _cards_of(book, drink, size):
            sheet.card(drink, lines)
    return bytes(sheet.output())


def _cards_of(book: Book, drink: str, size: str | None) -> Iterator[list[Line]]:
    """The lines of each card: the drink as it comes, then hot (or iced) if it can be had so."""
    by_ice: dict[str, list[Line]] = {}
    for line in usual_lines(book.drinks[drink]):
        if size in (None, line.size):
            by_ice.setdefault(line.ice, []).append(line)
    yield from by_ice.values()


class _Sheet(Paper):
    """The document."""

    def __init__(self, book: Book, now: int) -> None:
        super().__init__(book, "recipe cards", now, "landscape", A5_MM)
        self.row = ROW_MM[1]

    def card(self, drink: str, lines: list[Line]) -> None:
        """One card: heading, cups, a table of the steps, what it comes to and what must be told."""
        self.lost.clear()
        made: list[tuple[str, Build]] = []
        refused: list[str] = []
        for line in lines:
            name = self.book.sizes[line.size].name
            try:
                made.append((name, resolve(self.book, line)))
            except Refusal as refusal:
                refused.append(f"{name}: {refusal.message}")
        self.add_page()
        recipe = self.book.drinks[drink]
        self.say(recipe.name, 17, "B", 8)
        bent = made[0][1].words if made else ()
        about = recipe.about
        if made and not any(step.action == "shake" for _, build in made for step in build.steps):
            about = unshaken(about)
        self.say(" · ".join([*bent, about]), 9)
        told = [*self._told([build for _, build in made]), *((words, "") for words in refused)]
        told += [(words, "") for words in self._toppings(drink, lines[0].ice)]
        keeps = holding(self.book, [build for _, build in made])
        told += [(keeps, "")] if keeps else []
        sizes = [line.size for line in lines]
        levels = level_rows(self.book, drink, sizes, lines[0].ice)
        if made:
            self._table(made, self._height(told) + LEVEL * 2 * len(levels) + 1)
            self._levels(" / ".join(self.book.sizes[size].name for size in sizes), levels)
        for words, style in told:
            self.say(words, 8, style, LINE)

    def _levels(self, sizes: str, rows: list[tuple[str, list[Level]]]) -> None:
        """A small table of what each sugar and each ice level comes to, the sizes side by side."""
        for unit, levels in rows:
            width = (self.epw - LEVELS) / max(6, len(levels))
            for style, first, place in (("B", unit.capitalize(), 0), ("", sizes, 1)):
                self.set_font("helvetica", style, 7.5)
                self.cell(LEVELS, LEVEL, self.plain(first), border="T" if place == 0 else "")
                for level in levels:
                    self.cell(width, LEVEL, self.plain(level[place]), border="T" if place == 0 else "")
                self.ln(LEVEL)
        self.ln(1)

    def _height(self, told: Sequence[tuple[str, str]]) -> float:
        """How much room these lines take, mm."""
        high = 0.0
        for words, style in told:
            self.set_font("helvetica", style, 8)
            lines = self.multi_cell(0, LINE, self.plain(words), dry_run=True, output="LINES")
            assert isinstance(lines, list)
            high += LINE * len(lines)
        return high

    def _table(self, made: list[tuple[str, Build]], below: float) -> None:
        """The cups, the steps and what they come to; ``below`` mm are wanted under it."""
        rows = card_rows([build for _, build in made])
        facts = self._facts([build for _, build in made])
        room = self.page_break_trigger - self.get_y() - FACT * len(facts) - below - 3
        # The rows first, for they are what is read; then the cups.
        self.row = min(ROW_MM[1], max(ROW_MM[0], (room - CUP_MM[0]) / len(rows)))
        width = (self.epw - NAMES) / len(made)
        self._heads(made, width, min(CUP_MM[1], max(CUP_MM[0], room - self.row * len(rows))))
        station = ""
        for row in rows:
            self._row(row, "" if row.station == station else self.book.stations[row.station].name, width)
            station = row.station
        self.set_font("helvetica", "", 8)
        for place, (label, values) in enumerate(facts):
            border = "T" if place == 0 else ""
            self.cell(NAMES, FACT, label, border=border)
            for value in values:
                self.cell(width, FACT, self.plain(value), border=border)
            self.ln(FACT)
        self.ln(1)

    def _heads(self, made: list[tuple[str, Build]], width: float, band: float) -> None:
        """A cup for each size, all to one scale, with its name and how full it is; ``band`` mm high."""
        top = self.get_y()
        foot = top + band - 1
        most = max(build.fill.brim_ml for _, build in made)
        for place, (name, build) in enumerate(made):
            left = MARGIN + NAMES + width * place
            # Cups of one shape: the height grows with the cube root of what they hold.
            high = (band - 2) * float((build.fill.brim_ml / most) ** (1 / 3))
            wide = draw_cup(self, build.fill, left, foot, high)
            self.set_xy(left + wide + 2, foot - 8.4)
            self.set_font("helvetica", "B", 10)
            self.cell(width - wide - 2, 4.6, self.plain(name))
            self.set_xy(left + wide + 2, foot - 4)
            self.set_font("helvetica", "", 8)
            self.cell(width - wide - 2, 4, f"{build.fill.filled_ml:.0f} of {build.fill.line_ml:g} ml")
        self.set_xy(MARGIN, foot - 4.4)
        self.set_font("helvetica", "B", 9)
        self.cell(28, 4.4, "Station")
        self.cell(NAMES - 28, 4.4, "Step")
        self.set_xy(MARGIN, foot + 1)
        self.line(MARGIN, foot + 1, MARGIN + self.epw, foot + 1)

    def _facts(self, builds: list[Build]) -> list[tuple[str, list[str]]]:
        """What the drink comes to at each size; nutrition rounded as the book's labels are."""
        factors = self.book.factors
        return [
            ("Handed over", [f"{build.balance.temperature_c:.0f} °C" for build in builds]),
            ("Sugars", [grams_words(factors, build.balance.sugars_g) for build in builds]),
            ("Caffeine", [f"{build.balance.caffeine_mg:.0f} mg" for build in builds]),
            ("Energy", [build.energy_words for build in builds]),
        ]

    def _row(self, row: CardRow, station: str, width: float) -> None:
        if self.will_page_break(self.row):
            self.add_page()
        self.set_font("helvetica", "B", 8)
        self.cell(28, self.row, self.plain(station))
        self.set_font("helvetica", "", 9)
        self.cell(40, self.row, self.plain(row.name))
        for place, step in enumerate(row.steps):
            left = MARGIN + NAMES + width * place
            taken = 0.0
            if step is not None and step.amount is not None and step.amount.kind in COUNTED:
                taken = self._tally(left, step.amount.count)
            self.set_x(left + taken)
            self.cell(width - taken, self.row, self.plain(said(step)))
        self.ln(self.row)

    def _tally(self, left: float, count: float) -> float:
        """Marks to be counted at a glance, a half one half as high; the room they took, mm."""
        whole, part = divmod(count, 1)
        if whole + (part > 0) > MOST_TALLIES:
            return 0.0
        x, foot = left + 0.8, self.get_y() + self.row - 1.1
        self.set_line_width(0.5)
        for n in range(int(whole) + (part > 0)):
            high = 3.2 if n < whole else 1.6
            self.line(x, foot, x, foot - high)
            x += 1.1 if (n + 1) % 5 else 2.2
        self.set_line_width(0.2)
        return x - left + 0.8

    def _told(self, builds: list[Build]) -> Iterator[tuple[str, str]]:
        """What must be told, with the style it is printed in: which steps, and which sizes where not all."""
        about: dict[str, dict[str, None]] = {}
        for step in (step for build in builds for step in build.steps):
            if step.caution is not None:
                about.setdefault(step.caution, {})[step.short] = None
        for caution, steps in about.items():
            yield f"! {caution} ({', '.join(steps)})", "B"
        said = {id(build): [caution.words for caution in build.cautions] for build in builds}
        for words in dict.fromkeys(words for build in builds for words in said[id(build)]):
            sizes = [self.book.sizes[build.line.size].name for build in builds if words in said[id(build)]]
            yield (words if len(sizes) == len(builds) else f"{', '.join(sizes)}: {words}"), ""
        for build in builds:
            for note in build.notes:
                yield f"{self.book.sizes[build.line.size].name}: {note.words}", ""

    def _toppings(self, drink: str, ice: str) -> Iterator[str]:
        """A portion of each topping that the drink takes so, and what must be told of them."""
        chosen = [self.book.toppings[id] for id in self.book.drinks[drink].toppings]
        chosen = [topping for topping in chosen if topping.hot or ice != HOT]
        if chosen:
            yield f"Toppings, a portion: {', '.join(map(self._portion, chosen))}."
        for caution in dict.fromkeys(topping.caution for topping in chosen):
            if caution is not None:
                of = [topping.name for topping in chosen if topping.caution == caution]
                yield f"With {', '.join(of)}: {caution}"

    def _portion(self, topping: Topping) -> str:
        tool, ingredient = self.book.tools[topping.tool], self.book.pantry[topping.ingredient]
        return f"{topping.name} {amount_words(amount(tool, ingredient, topping.portion_ml))}"
