"""``levelscoop cards``: what of a book is printed: its recipe cards, or the allergens of its menu."""

from __future__ import annotations

import argparse
import sys
import time
from pathlib import Path
from typing import Any

from service.cli.books import BOOK_HELP, default_book, open_book


def add(choices: Any) -> None:  # noqa: ANN401  (argparse keeps the class of subparsers private)
    """Add this subcommand's options."""
    command = choices.add_parser(
        "cards",
        help="write a book's recipe cards (A5) or its allergen sheet (A4) as a PDF",
        description=(
            "Write a book's recipe cards, all sizes of a drink side by side, as a PDF of A5 pages; "
            "or with --allergens one sheet for the whole menu, as A4 pages."
        ),
    )
    command.add_argument(
        "book",
        nargs="?",
        type=Path,
        default=default_book(),
        help=BOOK_HELP,
    )
    what = command.add_mutually_exclusive_group()
    what.add_argument("--drink", metavar="ID", help="only this drink's card (default: all)")
    what.add_argument("--allergens", action="store_true", help="the allergens of the whole menu instead")
    command.add_argument("--out", type=Path, help="default: cards.pdf, or allergens.pdf")
    command.set_defaults(run=run)


def run(options: argparse.Namespace) -> int:
    """Exit code 0 when written, 1 when the book, the drink or the place is refused."""
    # Loading fonts takes a moment that no other subcommand needs to wait for.
    from service.learning.allergen_sheet import allergen_sheet
    from service.learning.cards import cards

    book = open_book(options.book)
    if book is None:
        return 1
    if options.drink is not None and options.drink not in book.drinks:
        accepted = ", ".join(book.drinks)
        print(f"--drink {options.drink}: the book has no such drink; accepted: {accepted}", file=sys.stderr)
        return 1
    drinks = list(book.drinks) if options.drink is None else [options.drink]
    now = int(time.time() * 1000)
    data = allergen_sheet(book, now) if options.allergens else cards(book, drinks, now)
    out = options.out or Path("allergens.pdf" if options.allergens else "cards.pdf")
    try:
        out.write_bytes(data)
    except OSError as error:
        print(f"--out {out}: cannot be written ({error.strerror})", file=sys.stderr)
        return 1
    what = "allergens of " if options.allergens else ""
    print(f"{out}: {what}{len(drinks)} drink{'s' if len(drinks) != 1 else ''}, book {book.version}")
    return 0
