"""Where the demo book is, and how a book's faults are told on a terminal."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import recipes
from recipes.book import Book
from recipes.reading.faults import BookRefused
from recipes.reading.reader import read_book

DEMO = Path(recipes.__file__).parent / "books" / "tideglass"

BOOK_HELP = "the book folder (default: BOOK, else the demo book)"


def default_book() -> Path:
    """The folder that BOOK names, as for the service; else the demo book."""
    return Path(os.environ.get("BOOK") or DEMO)


def open_book(folder: Path) -> Book | None:
    """The book in a folder; None after telling its faults, one a line, on stderr."""
    try:
        return read_book(folder)
    except BookRefused as refused:
        for fault in refused.faults:
            print(fault, file=sys.stderr)
        count = len(refused.faults)
        print(f"{folder}: refused, {count} fault{'s' if count != 1 else ''}", file=sys.stderr)
        return None
