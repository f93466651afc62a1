"""Why combinations are refused, and advice: every refusal counted once, no advice to buy what is there."""

from __future__ import annotations

from dataclasses import replace

from recipes.proof.advice import advice
from recipes.proof.model import Case, Coarse
from recipes.proof.prove import prove_drink
from recipes.proof.reasons import reasons
from recipes.proof.report import render
from tests.proof.books import GOOD, LADLED, bar

BOOK = bar(iced=GOOD, ladled=LADLED.replace("Iced Tea", "Ladled Tea"))
PROOFS = [prove_drink(BOOK, drink) for drink in BOOK.drinks]


def test_every_refusal_is_counted_under_one_reason() -> None:
    found = reasons(PROOFS)
    assert found
    assert sum(reason.count for reason in found) == sum(proof.refused for proof in PROOFS)
    for reason in found:
        assert sum(each.count for each in reason.drinks) == reason.count
        assert reason.meaning
        assert reason.cure
    assert [reason.count for reason in found] == sorted((reason.count for reason in found), reverse=True)


def test_shares_are_of_all_combinations() -> None:
    """Twice the combinations, the same refusals: half the share."""
    (first, *_) = reasons(PROOFS)
    twice = reasons([*PROOFS, *(replace(proof, refusals=()) for proof in PROOFS)])
    assert abs(twice[0].share_pct - first.share_pct / 2) <= 0.01


def test_the_terminal_tells_the_reasons() -> None:
    text = render(PROOFS, advice(BOOK, PROOFS), BOOK.tolerance_pct, "")
    assert "Refused, by reason" in text
    assert f"{reasons(PROOFS)[0].count:,}" in text


def coarse_in(step_ml: float, wanted_ml: float) -> str:
    """What is advised when a jug of ``step_ml`` is off by 12 % at ``wanted_ml``."""
    line = BOOK.drinks["iced"].default
    case = Case(line, "Small Iced Tea", (), 12.0, (), True)
    found = Coarse("cold_tea", "Tea", "jug", 5, wanted_ml, step_ml, case)
    (told,) = advice(BOOK, [replace(PROOFS[0], refusals=(), violations=(), coarse=(found,))])
    return told.text


def test_a_tool_that_is_fine_enough_is_not_advised_anew() -> None:
    """A step s is off by s/2 at most: 10 % of 60 ml allow a step of 12 ml, of 12 ml one of 2.4 ml, of 30 ml
    one of 6 ml, which a jigger with lines every 5 ml is good for."""
    assert "fine enough" in coarse_in(step_ml=10, wanted_ml=60)
    assert "A measure of 2 ml" in coarse_in(step_ml=10, wanted_ml=12)
    assert "a jigger has lines every 5 ml" in coarse_in(step_ml=10, wanted_ml=12)
    assert "A jigger with a mark every 5 ml" in coarse_in(step_ml=10, wanted_ml=30)
