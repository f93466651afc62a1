"""``levelscoop build``: the exact build of a line typed in words."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import Any

from pydantic import TypeAdapter

from recipes.asking.spoken import read_line
from recipes.building.resolve import resolve
from recipes.model import Build, Refusal
from recipes.telling.words import accepted_in_words
from service.cli.books import BOOK_HELP, default_book, open_book
from service.cli.build_card import render


def add(choices: Any) -> None:  # noqa: ANN401  (argparse keeps the class of subparsers private)
    """Add this subcommand's options."""
    command = choices.add_parser(
        "build",
        help="print the exact build of a drink typed in words",
        description="Print the build of a drink, its modifiers in any order: "
        'levelscoop build "large roasted oolong milk tea, less ice, half sugar, pearls, 1 shot"',
    )
    command.add_argument("words", nargs="+", help="the drink and its modifiers")
    command.add_argument(
        "--book",
        type=Path,
        default=default_book(),
        help=BOOK_HELP,
    )
    command.add_argument("--json", action="store_true", help="the build as JSON, as it travels on the wire")
    command.set_defaults(run=run)


def run(options: argparse.Namespace) -> int:
    """Exit code 0 with a build on stdout; 1 with the reason on stderr."""
    book = open_book(options.book)
    if book is None:
        return 1
    try:
        build = resolve(book, read_line(book, " ".join(options.words)))
    except Refusal as refusal:
        print(refusal, file=sys.stderr)
        accepted = accepted_in_words(book, refusal)
        if not all(each in refusal.message for each in accepted):
            print("Accepted: " + ", ".join(accepted), file=sys.stderr)
        return 1
    if options.json:
        sys.stdout.write(TypeAdapter(Build).dump_json(build, indent=2).decode() + "\n")
    else:
        print(render(build))
    return 0
