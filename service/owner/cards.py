"""Recipe cards to print: A5 across, a drink a card, its sizes side by side, from the very builds of the bar.

The font is one that every reader of PDF has (Helvetica in the Windows-1252 encoding); what it lacks is
written as "?" and said at the foot of the card.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from zoneinfo import ZoneInfo

from fpdf import FPDF
from fpdf.enums import XPos, YPos

from recipes.book import Book
from recipes.card import TALLIED
from recipes.measures import figure
from recipes.model import Build, Duration, Line, Refusal, Step
from recipes.resolve import resolve
from service.owner.movers import usual_lines

ENCODING = "cp1252"
A5_MM = (148.0, 210.0)
"""ISO 216."""

MARGIN = 9.0
"""Around the page, mm."""

ROW = 5.2
"""Height of a row, mm."""

MOST_TALLIES = 12
"""More marks than this cannot be counted at a glance: the figure alone is printed."""


@dataclass(frozen=True, slots=True)
class _Row:
    """One step of the card: what it is, and how it is at each size (None: not there)."""

    station: str
    label: str
    steps: tuple[Step | None, ...]


def cards(book: Book, drinks: Sequence[str], now: int, size: str | None = None) -> bytes:
    """The PDF of these drinks' cards, at one size or all of them.

    ``now`` in ms since 1970 UTC is printed as a date of the shop's.
    """
    day = datetime.fromtimestamp(now / 1000, UTC).astimezone(ZoneInfo(book.shop.time_zone)).date()
    sheet = _Sheet(book, f"Book {book.version} · {day.isoformat()}")
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


class _Sheet(FPDF):
    """The document; every text goes through ``_plain``."""

    def __init__(self, book: Book, foot: str) -> None:
        super().__init__("landscape", "mm", A5_MM)
        self.core_fonts_encoding = ENCODING
        self.book, self.foot = book, foot
        self.lost: set[str] = set()
        self.set_margins(MARGIN, MARGIN, MARGIN)
        self.set_auto_page_break(True, MARGIN + 6)
        self.set_title(self._plain(f"{book.shop.name}: recipe cards"))
        self.alias_nb_pages()

    def footer(self) -> None:
        """Book, date, page; what could not be printed."""
        self.set_y(-MARGIN - 3)
        self.set_font("helvetica", "", 7)
        lost = f" · not in this font: {len(self.lost)} characters, written ?" if self.lost else ""
        said = f"{self.book.shop.name} · {self.foot}{lost} · page {self.page_no()} of {{nb}}"
        self.cell(0, 4, self._plain(said), align="C")

    def _plain(self, text: str) -> str:
        """The text in the font's characters."""
        found = text.encode(ENCODING, "replace").decode(ENCODING)
        self.lost |= {was for was, now in zip(text, found, strict=True) if was != now}
        return found

    def _line(self, text: str, size: float, style: str = "", height: float = 5.0) -> None:
        self.set_font("helvetica", style, size)
        self.multi_cell(0, height, self._plain(text), align="L", new_x=XPos.LMARGIN, new_y=YPos.NEXT)

    def card(self, drink: str, lines: list[Line]) -> None:
        """One card: heading, a table of the steps, what it comes to and what must be told."""
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
        self._line(recipe.name, 17, "B", 8)
        said = made[0][1].words if made else ()
        self._line(" · ".join([*said, recipe.about]), 9)
        self.ln(1.5)
        if made:
            self._table(made)
            self._told([build for _, build in made])
        for words in refused:
            self._line(words, 8)

    def _table(self, made: list[tuple[str, Build]]) -> None:
        width = (self.epw - 66) / len(made)
        self.set_font("helvetica", "B", 9)
        for text, wide in [("Station", 26.0), ("Step", 40.0), *((name, width) for name, _ in made)]:
            self.cell(wide, ROW, self._plain(text), border="B")
        self.ln(ROW)
        station = ""
        for row in _rows([build for _, build in made]):
            self._row(row, "" if row.station == station else self.book.stations[row.station].name, width)
            station = row.station
        balance = [build.balance for _, build in made]
        facts = [
            ("Handed over", [f"{each.temperature_c:.0f} °C" for each in balance]),
            ("In the cup", [f"{build.fill.filled_ml:.0f} of {build.fill.line_ml:g} ml" for _, build in made]),
            ("Sugars", [f"{each.sugars_g:.0f} g" for each in balance]),
            ("Caffeine", [f"{each.caffeine_mg:.0f} mg" for each in balance]),
            ("Energy", [f"{each.energy_kj:.0f} kJ / {each.energy_kcal:.0f} kcal" for each in balance]),
        ]
        self.set_font("helvetica", "", 8)
        for place, (label, values) in enumerate(facts):
            border = "T" if place == 0 else ""
            self.cell(66, 4.2, label, border=border)
            for value in values:
                self.cell(width, 4.2, self._plain(value), border=border)
            self.ln(4.2)
        self.ln(1)

    def _row(self, row: _Row, station: str, width: float) -> None:
        if self.will_page_break(ROW):
            self.add_page()
        self.set_font("helvetica", "B", 8)
        self.cell(26, ROW, self._plain(station))
        self.set_font("helvetica", "", 9)
        self.cell(40, ROW, self._plain(row.label))
        for place, step in enumerate(row.steps):
            left = MARGIN + 66 + width * place
            taken = 0.0
            if step is not None and step.amount is not None and step.amount.kind in TALLIED:
                taken = self._tally(left, step.amount.count)
            self.set_x(left + taken)
            self.cell(width - taken, ROW, self._plain(_said(step)))
        self.ln(ROW)

    def _tally(self, left: float, count: float) -> float:
        """Marks to be counted at a glance, a half one half as high; the room they took, mm."""
        whole, part = divmod(count, 1)
        if whole + (part > 0) > MOST_TALLIES:
            return 0.0
        x, foot = left + 0.8, self.get_y() + ROW - 1.1
        self.set_line_width(0.5)
        for n in range(int(whole) + (part > 0)):
            high = 3.2 if n < whole else 1.6
            self.line(x, foot, x, foot - high)
            x += 1.1 if (n + 1) % 5 else 2.2
        self.set_line_width(0.2)
        return x - left + 0.8

    def _told(self, builds: list[Build]) -> None:
        """Cautions: which steps they are about, and which sizes where they are not about all."""
        about: dict[str, dict[str, None]] = {}
        for step in (step for build in builds for step in build.steps):
            if step.caution is not None:
                about.setdefault(step.caution, {})[step.short] = None
        for caution, steps in about.items():
            self._line(f"! {', '.join(steps)}: {caution}", 8, "B", 4)
        for words in dict.fromkeys(each for build in builds for each in build.cautions):
            sizes = [self.book.sizes[build.line.size].name for build in builds if words in build.cautions]
            self._line(words if len(sizes) == len(builds) else f"{', '.join(sizes)}: {words}", 8, "", 4)


def _rows(builds: list[Build]) -> list[_Row]:
    """The steps of several builds in one order: a step is known by station, label and how often it came."""
    keyed: list[dict[tuple[str, str, int], Step]] = []
    for build in builds:
        found: dict[tuple[str, str, int], Step] = {}
        for step in build.steps:
            times = sum(key[:2] == (step.station, step.short) for key in found)
            found[step.station, step.short, times] = step
        keyed.append(found)
    longest = max(keyed, key=len)
    order = list(dict.fromkeys([*longest, *(key for found in keyed for key in found)]))
    stations = list(dict.fromkeys(step.station for build in builds for step in build.steps))
    order.sort(key=lambda key: stations.index(key[0]))
    return [_Row(key[0], key[1], tuple(found.get(key) for found in keyed)) for key in order]


def _said(step: Step | None) -> str:
    """A step at one size: its amount, its time, or a dash where it is not made."""
    if step is None:
        return "–"
    parts = []
    if step.amount is not None:
        parts.append(f"{figure(step.amount.count)} {step.amount.unit}")
    if step.duration is not None:
        parts.append(_time(step.duration))
    return " · ".join(parts) or "yes"


def _time(duration: Duration) -> str:
    low, high = f"{duration.low_s:.0f}", f"{duration.high_s:.0f}"
    return f"{high} s" if low == high else f"{low}–{high} s"
