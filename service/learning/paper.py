"""What all printed papers of a book share: a font that every reader of PDF has, and a foot that says of what.

The font is Helvetica in the Windows-1252 encoding; what it lacks is written as "?" and said at the foot.
"""

from __future__ import annotations

import re
from datetime import UTC, datetime
from typing import Literal
from zoneinfo import ZoneInfo

from fpdf import FPDF
from fpdf.enums import XPos, YPos

from recipes.book import Book

ENCODING = "cp1252"

MARGIN = 9.0
"""Around the page, mm."""


class Paper(FPDF):
    """A document of pages of one size (mm, upright); every text goes through ``plain``.

    ``now`` in ms since 1970 UTC is printed as a date of the shop's, beside the book's version.
    """

    def __init__(
        self,
        book: Book,
        title: str,
        now: int,
        orientation: Literal["portrait", "landscape"],
        size_mm: tuple[float, float],
    ) -> None:
        super().__init__(orientation, "mm", size_mm)
        self.core_fonts_encoding = ENCODING
        self.book = book
        day = datetime.fromtimestamp(now / 1000, UTC).astimezone(ZoneInfo(book.shop.time_zone)).date()
        self.foot = f"book version {book.version} · {day.isoformat()}"
        self.lost: set[str] = set()
        self.set_margins(MARGIN, MARGIN, MARGIN)
        self.set_auto_page_break(True, MARGIN + 6)
        self.set_title(self.plain(f"{book.shop.name}: {title}"))
        self.alias_nb_pages()

    def footer(self) -> None:
        """Book, date, page; what could not be printed."""
        self.set_y(-MARGIN - 3)
        self.set_font("helvetica", "", 7)
        lost = f" · not in this font: {len(self.lost)} characters, written ?" if self.lost else ""
        words = f"{self.book.shop.name} · {self.foot}{lost} · page {self.page_no()} of {{nb}}"
        self.cell(0, 4, self.plain(words), align="C")

    def plain(self, text: str) -> str:
        """The text in the font's characters, which know halves and quarters and no thirds."""
        for mark, written in (("⅓", "1/3"), ("⅔", "2/3")):
            text = re.sub(rf"(?<=\d){mark}", f" {written}", text).replace(mark, written)
        found = text.encode(ENCODING, "replace").decode(ENCODING)
        self.lost |= {was for was, now in zip(text, found, strict=True) if was != now}
        return found

    def say(self, text: str, size: float, style: str = "", height: float = 5.0) -> None:
        """A text over the whole width, in as many lines (each ``height`` mm) as it takes."""
        self.set_font("helvetica", style, size)
        self.multi_cell(0, height, self.plain(text), align="L", new_x=XPos.LMARGIN, new_y=YPos.NEXT)
