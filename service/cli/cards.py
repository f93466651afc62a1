"""``levelscoop cards``: the recipe cards of a book as a PDF to print."""

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
        help="write a book's recipe cards as a PDF (A5)",
        description="Write a book's recipe cards, all sizes of a drink side by side, as a PDF of A5 pages.",
    )
    command.add_argument(
        "book",
        nargs="?",
        type=Path,
        default=default_book(),
        help=BOOK_HELP,
    )
    command.add_argument("--drink", metavar="ID", help="only this drink (default: all)")
    command.add_argument("--out", type=Path, default=Path("cards.pdf"), help="default: cards.pdf")
    command.set_defaults(run=run)


def run(options: argparse.Namespace) -> int:
    """Exit code 0 when written, 1 when the book, the drink or the place is refused."""
    # Loading fonts takes a moment that no other subcommand needs to wait for.
    from service.owner.cards import cards

    book = open_book(options.book)
    if book is None:
        return 1
    if options.drink is not None and options.drink not in book.drinks:
        accepted = ", ".join(book.drinks)
        print(f"--drink {options.drink}: the book has no such drink; accepted: {accepted}", file=sys.stderr)
        return 1
    drinks = list(book.drinks) if options.drink is None else [options.drink]
    try:
        options.out.write_bytes(cards(book, drinks, int(time.time() * 1000)))
    except OSError as error:
        print(f"--out {options.out}: cannot be written ({error.strerror})", file=sys.stderr)
        return 1
    print(f"{options.out}: {len(drinks)} drink{'s' if len(drinks) != 1 else ''}, book {book.version}")
    return 0
