"""``levelscoop check``: does a book folder hold together? Every fault at once, as file:line."""

from __future__ import annotations

import argparse
import dataclasses
import json
from pathlib import Path
from typing import Any

from recipes.proof.levels import coinciding, told
from recipes.reading.faults import BookRefused
from recipes.reading.reader import read_book
from service.cli.books import BOOK_HELP, default_book, open_book


def add(choices: Any) -> None:  # noqa: ANN401  (argparse keeps the class of subparsers private)
    """Add this subcommand's options."""
    command = choices.add_parser(
        "check",
        help="check a book folder and list its faults",
        description="List every fault of a book folder, as file:line; warn of levels that come to "
        "the same measure. Exit 0 when there are no faults.",
    )
    command.add_argument(
        "book",
        nargs="?",
        type=Path,
        default=default_book(),
        help=BOOK_HELP,
    )
    command.add_argument("--json", action="store_true", help="the faults as JSON, for an editor")
    command.set_defaults(run=run)


def run(options: argparse.Namespace) -> int:
    """Exit code 0 for a good book, 1 for a refused one."""
    if options.json:
        faults: list[dict[str, object]] = []
        try:
            read_book(options.book)
        except BookRefused as refused:
            faults = [dataclasses.asdict(fault) for fault in refused.faults]
        print(json.dumps({"faults": faults}, indent=2, ensure_ascii=False))
        return 1 if faults else 0
    book = open_book(options.book)
    if book is None:
        return 1
    print(f"{options.book}: good. {len(book.drinks)} drinks, version {book.version}")
    for words, _ in told(book, coinciding(book)):
        print(f"warning: {words}")
    return 0
