"""What builds ask of hands, in a bar with a thimble and a scoop that has quarters; and parts put together.

Seconds are those of the book itself ([hands] below, round figures), added up by hand.
"""

from __future__ import annotations

import statistics
from dataclasses import replace

import pytest

from recipes.asking.combinations import all_lines
from recipes.book import Book
from recipes.building.resolve import resolve
from recipes.model import Amount, Build, ComponentError, Line, Refusal, Step
from recipes.proof.by_hand import ByHand, Fussy, by_hand
from recipes.proof.hand_tally import HandTally, merged_hands, percentile
from recipes.proof.prove import prove_drink, prove_part
from recipes.proof.report import render
from recipes.reading.reader import parse_book
from tests.proof.books import GOOD, files

HANDS = """
[hands]
scoop = "3 s"
half_scoop = "4 s"
pump = "1 s"
stroke = "2 s"
jigger = "6 s"
between_marks = "5 s"
second_fill = "7 s"
jug = "10 s"
other_tool = "8 s"
"""

TOOLS = """
[tools.scoop]
name = "scoop"
kind = "scoop"
one = "scoop"
many = "scoops"
holds = "20 ml"
smallest = "1/4"

[tools.thimble]
name = "thimble"
kind = "scoop"
one = "thimble"
many = "thimbles"
holds = "4 ml"
smallest = "1"

[tools.jigger]
name = "jigger"
kind = "jigger"
holds = "60 ml"
smallest = "1"

[sizes.small]"""


def hand_bar(**drinks: str) -> Book:
    texts = files(**drinks)
    shop = texts["shop.toml"].replace("[sizes.small]", TOOLS, 1).replace("[tax]", f"{HANDS}[tax]", 1)
    return parse_book({**texts, "shop.toml": shop})


JIGGERED = GOOD.replace('amount = "120 ml"', 'amount = { small = "16 ml", large = "30 ml" }\ntool = "jigger"')
"""Tea by the jigger: 16 ml stands at none of its lines, 30 ml does."""

BOOK = hand_bar(iced=GOOD, jiggered=JIGGERED.replace("Iced Tea", "Jiggered Tea"))
LINE = BOOK.drinks["iced"].default
PLAIN = resolve(BOOK, LINE)


def step(ingredient: str, tool: str, count: float) -> Step:
    """A step that measures so much of something, which is all that hands look at."""
    found = BOOK.tools[tool]
    unit = found.one if count <= 1 else found.many
    amount = Amount(tool, found.kind, unit, count, count * found.unit_ml, 0.0, 0.0, 0.0)
    return Step(1, "bar", "add", "", BOOK.pantry[ingredient].short, ingredient, amount, None, None)


def build(*steps: Step) -> Build:
    return replace(PLAIN, steps=steps)


@pytest.mark.parametrize(
    ("steps", "fussy", "seconds"),
    [
        # Two strokes: 1 + 2 x 2. A jug: 10. Halves are what hands are used to: 3 + 4.
        ([step("syrup", "pump", 2), step("tea", "jug", 120)], [], 5 + 10),
        ([step("syrup", "scoop", 1.5)], [], 3 + 4),
        ([step("syrup", "scoop", 0.75)], [Fussy("part measure", "¾ scoop of Syrup")], 4),
        # A thimble after the scoop: 3 each, and 8 for the other tool.
        (
            [step("syrup", "scoop", 1), step("syrup", "thimble", 1)],
            [Fussy("two tools", "Syrup by scoop and thimble")],
            3 + 3 + 8,
        ),
        # Two ingredients by one tool each are two measures, not two tools.
        ([step("syrup", "scoop", 1), step("tea", "thimble", 1)], [], 3 + 3),
        # A jigger has lines every 5 ml: 20 is one, 16 is none, and 80 is past its brim at 60.
        ([step("tea", "jigger", 20)], [], 6),
        ([step("tea", "jigger", 80)], [Fussy("over the brim", "80 ml of Tea")], 6 + 7),
        (
            [step("syrup", "scoop", 0.25), step("tea", "jigger", 16)],
            [Fussy("part measure", "¼ scoop of Syrup"), Fussy("between marks", "16 ml of Tea")],
            4 + 6,
        ),
        ([], [], 0),
    ],
)
def test_fuss_and_seconds_of_one_build(steps: list[Step], fussy: list[Fussy], seconds: float) -> None:
    found = by_hand(BOOK, build(*steps))
    assert list(found.fussy) == fussy
    assert found.seconds == pytest.approx(seconds)


def errors(*pcts: float) -> tuple[ComponentError, ...]:
    return tuple(ComponentError("tea", "Tea", 100.0, 100.0 + pct, pct) for pct in pcts)


def test_the_median_and_the_95th_percentile_are_those_of_all_parts() -> None:
    """Of 0 to 19 per cent, one each, the tenth is 9 and the nineteenth 18, by nearest rank."""
    tally = HandTally(BOOK, "iced")
    for pct in range(20):
        sign = -1 if pct % 2 else 1
        tally.add(LINE, ByHand((), 0.0), tally.off(replace(PLAIN, errors=errors(sign * float(pct)))))
    found = tally.proof()
    assert (found.median_pct, found.p95_pct, sum(found.parts)) == (9.0, 18.0, 20)
    assert percentile([0] * 101, 0.5) == 0.0


def test_what_is_far_off_is_in_the_last_bin() -> None:
    tally = HandTally(BOOK, "iced")
    tally.add(LINE, ByHand((), 0.0), tally.off(replace(PLAIN, errors=errors(0.2, 0.3, 50.0, -300.0))))
    assert {place: count for place, count in enumerate(tally.proof().parts) if count} == {0: 1, 1: 1, 100: 2}


def test_a_sweetener_is_told_in_steps_of_its_tool_and_is_no_part() -> None:
    """5.2 g too much of 1.30 g/ml are 4 ml: four sevenths of a stroke of 7 ml."""
    tally = HandTally(BOOK, "iced")
    off = ComponentError("syrup", "Syrup", 13.0, 18.2, 40.0, 50.0)
    tally.add(LINE, ByHand((), 0.0), tally.off(replace(PLAIN, errors=(off,))))
    found = tally.proof()
    assert found.sweetest is not None
    assert found.sweetest.steps == pytest.approx(4 / 7, abs=1e-3)
    assert sum(found.parts) == 0


def tallied(*added: tuple[float, tuple[Fussy, ...], float]) -> HandTally:
    tally = HandTally(BOOK, "iced")
    for seconds, fussy, pct in added:
        tally.add(LINE, ByHand(fussy, seconds), tally.off(replace(PLAIN, errors=errors(pct))))
    return tally


def test_parts_merge_to_what_all_of_them_are_at_once() -> None:
    quarter, two = Fussy("part measure", "¼ scoop of Tea"), Fussy("two tools", "Tea by scoop and thimble")
    one = [(10.0, (quarter,), 2.0), (20.0, (), 4.0)]
    other = [(60.0, (quarter, quarter, two), 6.0)]
    both = merged_hands([tallied(*one).proof(), tallied(*other).proof()])
    assert both == tallied(*one, *other).proof()
    # Two of three are fussy; (10 + 20 + 60) / 3 seconds; a kind counts once for each build.
    assert (both.built, both.fussy, both.seconds, both.median_pct) == (3, 2, 30.0, 4.0)
    assert [(each.kind, each.count) for each in both.fuss] == [("part measure", 2), ("two tools", 1)]
    assert merged_hands([]).built == 0


def builds_of(drink: str) -> list[tuple[Line, ByHand]]:
    found = []
    for line in all_lines(BOOK, drink):
        try:
            found.append((line, by_hand(BOOK, resolve(BOOK, line))))
        except Refusal:
            continue
    return found


def test_a_drinks_proof_and_its_heat_cells_are_those_of_its_builds_one_by_one() -> None:
    proof = prove_drink(BOOK, "jiggered")
    found = builds_of("jiggered")
    assert 0 < proof.hand.fussy < proof.built
    assert proof.hand.built == proof.built == len(found)
    assert proof.hand.fussy == sum(bool(hand.fussy) for _, hand in found)
    assert proof.hand.seconds == pytest.approx(statistics.fmean(hand.seconds for _, hand in found), abs=1e-3)
    for cell in proof.heat:
        if cell.modifier not in ("size", "sugar"):
            continue
        there = [hand for line, hand in found if str(getattr(line, cell.modifier)) == cell.value]
        assert cell.fussy == sum(bool(hand.fussy) for hand in there)
        assert cell.seconds == pytest.approx(statistics.fmean(hand.seconds for hand in there), abs=1e-3)


def test_fussy_builds_are_counted_where_they_are() -> None:
    plain = by_hand(BOOK, resolve(BOOK, BOOK.drinks["jiggered"].default))
    assert plain.fussy == (Fussy("between marks", "16 ml of Cold tea"),)
    proof = prove_part(BOOK, "jiggered", "small")
    assert sum(cell.fussy for cell in proof.heat if cell.modifier == "sugar") == proof.hand.fussy > 0
    text = render([proof], [], BOOK.tolerance_pct, "")
    assert "By hand" in text
    assert "between marks" in text
