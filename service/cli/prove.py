"""``levelscoop prove``: does every combination that can be rung in have a build that the bar can trust?"""

from __future__ import annotations

import argparse
import os
import signal
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from time import monotonic
from types import FrameType
from typing import Any

from recipes.proof.report import render
from service.bench.proving.proofs import holds, proof_message
from service.bench.proving.proving import ProofStore, Proving, prove
from service.cli.books import BOOK_HELP, default_book, open_book


def add(choices: Any) -> None:  # noqa: ANN401  (argparse keeps the class of subparsers private)
    """Add this subcommand's options."""
    command = choices.add_parser(
        "prove",
        help="resolve and check every combination of a book",
        description="Resolve every combination of modifiers that the register can ring in, check each, and "
        "tell the worst. Exit 0 only when the proof holds. Ctrl-C keeps what is done in --cache.",
    )
    command.add_argument(
        "book",
        nargs="?",
        type=Path,
        default=default_book(),
        help=BOOK_HELP,
    )
    command.add_argument("--json", action="store_true", help="the whole proof as JSON (Proof of the API)")
    command.add_argument(
        "--jobs", type=_jobs, default=os.cpu_count() or 1, metavar="N", help="processes (default: every core)"
    )
    command.add_argument(
        "--cache", type=Path, metavar="DIR", help="keep what is proved here, so that only changes are proved"
    )
    command.set_defaults(run=run)


def _jobs(text: str) -> int:
    if not (text.isascii() and text.isdecimal() and 1 <= int(text) <= 256):
        raise argparse.ArgumentTypeError(f"{text!r}: accepted is a number of processes from 1 to 256")
    return int(text)


def run(options: argparse.Namespace) -> int:
    """Exit code 0 when the proof holds, 1 when it does not or the book is refused."""
    book = open_book(options.book)
    if book is None:
        return 1
    begun = monotonic()
    told = _Progress(begun)
    try:
        with _heard_for_sure() as stopped:
            proving = prove(book, ProofStore(options.cache), options.jobs, stopped(told))
    except KeyboardInterrupt:
        told.end()
        kept = f"; what is done is kept in {options.cache}" if options.cache else ""
        print(f"Stopped{kept}.", file=sys.stderr)
        return 130
    told.end()
    seconds = monotonic() - begun
    drinks = proving.drinks()
    good = holds(drinks)
    message = proof_message(book, drinks, "holds" if good else "fails", proving.total, proving.total, seconds)
    if options.json:
        print(message.model_dump_json(indent=2))
    else:
        rate = (
            f" ({proving.resolved / seconds:,.0f} a second)"
            if proving.resolved
            else ", all known from before"
        )
        verdict = f"{proving.total:,} combinations in {seconds:.1f} s{rate}. The proof "
        broken = f"does not hold: {message.violated:,} breaches of it."
        verdict += "holds." if good else broken
        print(render(message.drinks, message.advice, book.tolerance_pct, verdict), end="")
    return 0 if good else 1


@contextmanager
def _heard_for_sure() -> Iterator[Callable[[Callable[[Proving], None]], Callable[[Proving], None]]]:
    """Ctrl-C ends the proof even when it comes while Python is in a callback that swallows it: what is told
    of progress raises it again."""
    pressed = False

    def press(number: int, frame: FrameType | None) -> None:
        nonlocal pressed
        pressed = True
        raise KeyboardInterrupt

    def checked(told: Callable[[Proving], None]) -> Callable[[Proving], None]:
        def tell(proving: Proving) -> None:
            if pressed:
                raise KeyboardInterrupt
            told(proving)

        return tell

    before = signal.signal(signal.SIGINT, press)
    try:
        yield checked
    finally:
        signal.signal(signal.SIGINT, before)


class _Progress:
    """Progress on stderr: one line that keeps up where that is a terminal, else a line every ten seconds."""

    EVERY_S = 10.0

    def __init__(self, begun: float) -> None:
        self._begun = begun
        self._next = begun + self.EVERY_S
        self._terminal = sys.stderr.isatty()

    def __call__(self, proving: Proving) -> None:
        now = monotonic()
        if not self._terminal and now < self._next:
            return
        self._next = now + self.EVERY_S
        share = proving.done / max(1, proving.total)
        line = f"{share:>4.0%}  {proving.done:,} of {proving.total:,} combinations, {now - self._begun:.0f} s"
        if self._terminal:
            print(f"\r{line} ", end="", file=sys.stderr, flush=True)
        else:
            print(line, file=sys.stderr, flush=True)

    def end(self) -> None:
        """Leave the line."""
        if self._terminal:
            print("\r" + " " * 70 + "\r", end="", file=sys.stderr, flush=True)
