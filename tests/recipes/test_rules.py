"""What the rules come to, so that none changes unseen: amounts that are another for the same book need other
``RULES``, since builds already in a queue are told apart by them.

The print is of our own output and says nothing about right or wrong; other tests do. When it changes on
purpose, raise ``RULES`` and write both anew.
"""

from __future__ import annotations

import hashlib
import random

from recipes.asking.combinations import drawn
from recipes.book import RULES, Book
from recipes.building.resolve import resolve
from recipes.model import Refusal

SEEN = ("6", "064150bc6a6b58cf", "4783ae9405709dc9")
"""The rules, the version of the demo book, and the print of what they came to."""

LINES_A_DRINK = 12


def print_of(book: Book) -> str:
    """Steps with their amounts, how full the cup stands and what is refused, of some lines of every drink."""
    draw = random.Random(20260302)
    told = hashlib.sha256()
    for drink in book.drinks:
        for _ in range(LINES_A_DRINK):
            line = drawn(book, drink, draw.randrange)
            try:
                build = resolve(book, line, ways_out=False)
            except Refusal as refusal:
                told.update(repr((line, refusal.code, refusal.field)).encode())
                continue
            steps = [
                (step.station, step.action, step.ingredient, step.amount and step.amount.count)
                for step in build.steps
            ]
            told.update(repr((line, steps, round(build.fill.filled_ml, 1))).encode())
    return told.hexdigest()[:16]


def test_other_amounts_need_other_rules(demo: Book) -> None:
    """A change of the demo book changes its version too: then the print is written anew, the rules stay."""
    assert (RULES, demo.version, print_of(demo)) == SEEN
