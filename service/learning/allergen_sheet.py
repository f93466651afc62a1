"""The allergens of a whole menu on paper: a row for all that can be ordered, a column for each allergen.

It is read by people who may be harmed by a mistake: a box says in a word what is in the recipe, an empty one
never promises anything, and what must be asked stands on every page. Local rules come first.
"""

from __future__ import annotations

from collections.abc import Sequence

from recipes.allergens import GROUPS
from recipes.book import Book
from service.learning.allergen_rows import AllergenRow, in_use, sections
from service.learning.paper import MARGIN, Paper

A4_MM = (210.0, 297.0)
"""ISO 216."""

NAMES = 66.0
"""Width of the names of drinks, mm."""

ROW = 5.2
"""Height of a row, mm."""

TELLING_MM, SMALL_MM = 4.4, 3.4
"""Height of a line of what must be told, and of what the words in the boxes mean."""

UPRIGHT_MM = 14.5
"""A column narrower than this has its heading turned, so that it can be read."""

HEADING = 7.2
"""Height of a heading over rows, mm."""

INSET = 5.0
"""How far a row stands in that belongs to the drink above it, mm."""

YES, SOME, NOT_WRITTEN = "yes", "some", "–"
"""What stands in a box; the last one where the recipe does not name the allergen."""

MEANING = (
    f"{YES}: it is in the recipe. {SOME}: in some sizes, at some sugar or ice levels, or only hot. "
    f"{NOT_WRITTEN} says no more than that the recipe does not name it: another brand may bring it, and "
    "traces may come from any of our tools. Leaving something out of a drink changes nothing on this sheet: "
    f"ask us. The columns are those of the {len(GROUPS)} groups of Regulation (EU) 1169/2011, Annex II, that "
    "our ingredients name; for any other, ask us. Local rules come first."
)
"""What the words in the boxes mean, on each page."""


def allergen_sheet(book: Book, now: int) -> bytes:
    """The PDF of the whole menu's sheet; ``now`` in ms since 1970 UTC is printed as a date of the shop's."""
    return bytes(_Sheet(book, now).written().output())


def caution(book: Book) -> str:
    """What must be told with any box of the sheet."""
    used = in_use(book)
    where = f" Everything is made where we use {_and(used)}, with the same tools and hands." if used else ""
    return f"Allergies? Ask us before you order.{where}"


def _together(rows: Sequence[AllergenRow]) -> list[list[AllergenRow]]:
    """Each drink with the rows that belong to it."""
    found: list[list[AllergenRow]] = []
    for row in rows:
        if row.inset and found:
            found[-1].append(row)
        else:
            found.append([row])
    return found


def _and(words: tuple[str, ...]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


class _Sheet(Paper):
    """The document: ``written`` puts the whole menu on it."""

    def __init__(self, book: Book, now: int) -> None:
        super().__init__(book, "allergens", now, "portrait", A4_MM)
        self.columns = in_use(book)
        self.wide = (self.epw - NAMES) / max(1, len(self.columns))
        self.told = 0.0

    def header(self) -> None:
        """The title and the columns, on each page."""
        self.say(f"{self.book.shop.name}: allergens", 17, "B", 8)
        self.say(
            "What our recipes contain, in every size, iced and hot. A topping adds what its own row says.",
            9,
            height=4.2,
        )
        self.ln(1.5)
        self._heads()

    def _heads(self) -> None:
        """The allergens over their columns: on two lines, or turned where the columns are narrow."""
        turned = self.wide < UPRIGHT_MM
        high = 37.0 if turned else 9.0
        foot = self.get_y() + high
        self.set_font("helvetica", "B", 8)
        self.set_xy(MARGIN, foot - ROW)
        self.cell(NAMES, ROW, "Contains")
        for place, told in enumerate(self.columns):
            left = MARGIN + NAMES + self.wide * place
            if turned:
                middle = left + self.wide / 2 + 1
                with self.rotation(90, middle, foot - 1):
                    self.text(middle, foot - 1, self.plain(told))
                continue
            name, _, group = told.partition(" (")
            for line, words in enumerate([name, f"({group}" if group else ""]):
                self.set_xy(left, foot - 8.4 + 4 * line)
                self.cell(self.wide, 4, self.plain(words), align="C")
        self.line(MARGIN, foot, MARGIN + self.epw, foot)
        self.set_xy(MARGIN, foot)

    def footer(self) -> None:
        """What must be told, on each page; then book, date and page."""
        self.set_y(-MARGIN - 6 - self.told)
        self.line(MARGIN, self.get_y(), MARGIN + self.epw, self.get_y())
        self.ln(1)
        self.say(caution(self.book), 9.5, "B", TELLING_MM)
        self.say(MEANING, 7.5, "", SMALL_MM)
        super().footer()

    def _height(self, words: str, size: float, style: str, line: float) -> float:
        """How much room a text takes, mm."""
        self.set_font("helvetica", style, size)
        lines = self.multi_cell(0, line, self.plain(words), dry_run=True, output="LINES")
        assert isinstance(lines, list)
        return line * len(lines)

    def written(self) -> _Sheet:
        """The sheet with the whole menu on it.

        A drink and its milks stand on one page, and a heading with the first of what it is over.
        """
        self.add_page()
        self.told = self._height(caution(self.book), 9.5, "B", TELLING_MM)
        self.told += self._height(MEANING, 7.5, "", SMALL_MM)
        self.set_auto_page_break(True, MARGIN + 7 + self.told)
        for section in sections(self.book):
            for place, rows in enumerate(_together(section.rows)):
                head = HEADING if place == 0 else 0.0
                if self.will_page_break(head + ROW * len(rows)):
                    self.add_page()
                    head = HEADING
                if head:
                    self.set_font("helvetica", "B", 10)
                    self.cell(0, HEADING, self.plain(section.name), align="L")
                    self.ln(HEADING)
                for row in rows:
                    self._row(row)
        return self

    def _row(self, row: AllergenRow) -> None:
        indent = INSET if row.inset else 0.0
        self.set_font("helvetica", "", 9)
        self.set_x(MARGIN + indent)
        self.cell(NAMES - indent, ROW, self._fitting(row.name[:1].upper() + row.name[1:], NAMES - indent))
        self.set_fill_color(215)
        for told in self.columns:
            word = YES if told in row.contains else SOME if told in row.some else NOT_WRITTEN
            named = word != NOT_WRITTEN
            self.set_font("helvetica", "B" if named else "", 9)
            self.cell(self.wide, ROW, self.plain(word), align="C", fill=named)
        self.ln(ROW)
        self.set_draw_color(170)
        self.line(MARGIN + indent, self.get_y(), MARGIN + self.epw, self.get_y())
        self.set_draw_color(0)

    def _fitting(self, name: str, room: float) -> str:
        """The name in whole characters as far as they fit."""
        plain = self.plain(name)
        while len(plain) > 1 and self.get_string_width(plain) > room - 2:
            plain = f"{plain.rstrip('…')[:-1]}…"
        return plain
