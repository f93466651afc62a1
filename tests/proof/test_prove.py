"""The proof finds what is known beforehand to be wrong, counts all of it, and nothing else."""

from __future__ import annotations

import itertools
import statistics
from collections.abc import Callable
from dataclasses import replace

import pytest

from recipes.asking.combinations import all_lines
from recipes.asking.lines import complete
from recipes.book import Book
from recipes.building.drink import Made
from recipes.building.resolve import Resolved, in_words, resolve, resolved
from recipes.model import Line, Refusal, ToppingChoice
from recipes.proof import prove as proving
from recipes.proof import tally, verdict
from recipes.proof.advice import advice
from recipes.proof.checks import errors_of
from recipes.proof.prove import prove_drink
from recipes.proof.report import render
from tests.proof.books import COARSE, COMBINATIONS, GOOD, LADLED, WARMER, bar


@pytest.fixture(scope="module")
def good() -> Book:
    return bar(iced=GOOD)


def test_a_good_book_holds_and_every_combination_is_looked_at(good: Book) -> None:
    seen: list[int] = []
    proof = prove_drink(good, "iced", seen.append)
    assert proof.combinations == COMBINATIONS == sum(seen)
    assert proof.built + proof.refused == COMBINATIONS
    assert (proof.violated, proof.violations) == (0, ())


def test_the_lines_are_exactly_those_that_the_register_takes(good: Book) -> None:
    toppings = [(), *(((ToppingChoice(id, half)),) for id in ("pearls", "no_such") for half in (False, True))]
    wider = itertools.product(
        ("small", "large", "huge"), (0, 25, 50, 100), ("none", "regular", "hot"), (0, 1, 2), toppings
    )
    taken = set()
    for size, sugar, ice, shots, chosen in wider:
        try:
            taken.add(complete(good, "iced", size, sugar, ice, shots, chosen))
        except Refusal:
            continue
    lines = list(all_lines(good, "iced"))
    assert len(lines) == len(set(lines)), "a line comes twice"
    assert set(lines) == taken


def test_mean_and_worst_are_those_of_the_builds_one_by_one() -> None:
    book = bar(iced=COARSE)
    errors = []
    for line in all_lines(book, "iced"):
        try:
            found = errors_of(resolve(book, line))
        except Refusal:
            continue
        errors.append(max((abs(each.error_pct) for each in found), default=0.0))
    proof = prove_drink(book, "iced")
    assert proof.mean_pct == pytest.approx(statistics.fmean(errors), abs=1e-3)
    assert proof.worst_pct == pytest.approx(max(errors), abs=1e-3)


def test_too_coarse_a_tool_is_told_with_the_measure_that_would_do() -> None:
    """Of a ladle that gives 25 ml or nothing, 8 ml cannot be had: 60 % off at most would ask for a drink of
    25 / 1.6 / 8 = 1.95 times the recipe, some 400 ml with its ice under a seal line of 300. In the large cup
    18 ml are wanted, and to be within 10 % a drink of 25 / 1.1 / 18 = 1.26 times the recipe; the fill weighs
    as much as the milk, so the drink grows less, and every one is told of."""
    book = bar(iced=LADLED)
    proof = prove_drink(book, "iced")
    assert [(each.code, each.count) for each in proof.refusals] == [("too coarse", COMBINATIONS // 2)]
    (milk,) = [each for each in proof.coarse if each.ingredient == "oat_milk"]
    assert (milk.count, milk.step_ml) == (COMBINATIONS // 2, 25)
    assert 18 < milk.wanted_ml < 18 * 1.26
    words = " ".join(each.text for each in advice(book, [proof]))
    # A step s is off by up to s/2, so 10 % of 18 to 22.7 ml asks for at most 3.6 to 4.5 ml.
    assert "A measure of 3.5 ml" in words, words
    assert "Oat milk" in words


def test_a_stroke_that_is_two_levels_is_no_fault_but_said() -> None:
    """Half a stroke is a tie and rounds up: within half a step of the pump, so no error is told; but half
    sugar and full sugar are one stroke then. In the large cup they are one and two."""
    book = bar(iced=COARSE)
    proof = prove_drink(book, "iced")
    assert (proof.flagged, proof.refused) == (0, 0)
    assert [(each.size, each.values, each.measure) for each in proof.same] == [
        ("small", ("50", "100"), "1 stroke")
    ]


def test_a_rule_that_makes_more_ice_warmer_breaks_the_proof() -> None:
    book = bar(iced=WARMER)
    proof = prove_drink(book, "iced")
    broken = [each for each in proof.violations if (each.kind, each.what) == ("not monotone", "ice")]
    assert broken, proof.violations
    assert broken[0].example.line.ice == "regular"
    assert "°C with more ice" in broken[0].message


Bend = Callable[[Resolved], Resolved]


Resolver = Callable[[Book, Line], Resolved]


def bend(monkeypatch: pytest.MonkeyPatch, wanted: Callable[[Line], bool], how: Bend) -> Resolver:
    """A resolver that is wrong for some lines, known beforehand; it takes the place of the true one."""

    def bent(book: Book, line: Line, ways_out: bool = True) -> Resolved:
        found = resolved(book, line, ways_out)
        return how(found) if wanted(line) else found

    monkeypatch.setattr(proving, "resolved", bent)
    monkeypatch.setattr(verdict, "resolved", bent)
    return bent


def one_line(line: Line) -> bool:
    return (line.size, line.sugar, line.ice, line.shots, line.toppings) == ("small", 50, "none", 1, ())


def overfull(found: Resolved) -> Resolved:
    return replace(found, levels=found.levels._replace(filled_ml=found.levels.line_ml + 1))


def vessel_too_full(found: Resolved) -> Resolved:
    shaker = found.levels._replace(vessel="shaker", vessel_ml=701.0, vessel_limit_ml=700.0)
    return replace(found, levels=shaker)


def with_made(found: Resolved, made: Made) -> Resolved:
    """The same line with another drink in its cup, of which no steps are known yet."""
    return replace(found, made=replace(made, shown={}))


def half_a_stroke(found: Resolved) -> Resolved:
    doses = tuple(
        (part, tuple(replace(a, count=a.count + 0.5) if a.kind == "pump" else a for a in amounts))
        for part, amounts in found.made.doses
    )
    return with_made(found, replace(found.made, doses=doses))


def far_off(found: Resolved) -> Resolved:
    errors = [
        replace(error, error_pct=40.0) if error.ingredient == "cold_tea" else error
        for error in found.made.errors
    ]
    errors.sort(key=lambda error: -abs(error.error_pct))
    return with_made(found, replace(found.made, errors=tuple(errors), worst=errors[0]))


def raises(found: Resolved) -> Resolved:
    raise ZeroDivisionError


@pytest.mark.parametrize(
    ("how", "kind", "what"),
    [
        (overfull, "overfull", "cup"),
        (vessel_too_full, "overfull", "shaker"),
        (half_a_stroke, "not measurable", "syrup"),
        (raises, "no build", "ZeroDivisionError"),
    ],
)
def test_one_wrong_combination_among_all_is_found(
    good: Book, monkeypatch: pytest.MonkeyPatch, how: Bend, kind: str, what: str
) -> None:
    bend(monkeypatch, one_line, how)
    proof = prove_drink(good, "iced")
    (violation,) = proof.violations
    assert (violation.kind, violation.what, violation.count) == (kind, what, 1)
    assert one_line(violation.example.line)
    assert proof.violated == 1


def test_what_is_off_without_a_word_is_found(good: Book, monkeypatch: pytest.MonkeyPatch) -> None:
    bend(monkeypatch, one_line, far_off)
    assert prove_drink(good, "iced").violated == 0
    monkeypatch.setattr(tally, "in_words", lambda book, found: replace(in_words(book, found), notes=()))
    proof = prove_drink(good, "iced")
    (violation,) = proof.violations
    assert (violation.kind, violation.what, violation.count) == ("out of tolerance", "cold_tea", 1)
    assert one_line(violation.example.line)


def unsweetened(found: Resolved) -> Resolved:
    return with_made(found, replace(found.made, sums=replace(found.made.sums, added_g=0.0)))


def warmed(found: Resolved) -> Resolved:
    return replace(found, settled=found.settled._replace(temperature_c=60.0))


def without_caffeine(found: Resolved) -> Resolved:
    return with_made(found, replace(found.made, sums=replace(found.made.sums, caffeine_mg=1.0)))


@pytest.mark.parametrize(
    ("what", "how", "wanted"),
    [
        ("sugar", unsweetened, lambda line: line.sugar == 100 and line.size == "large"),
        ("ice", warmed, lambda line: line.ice == "regular" and line.size == "large"),
        ("shots", without_caffeine, lambda line: line.shots == 1 and line.size == "large"),
    ],
)
def test_worse_than_the_neighbour_is_found_for_each_that_is(
    good: Book,
    monkeypatch: pytest.MonkeyPatch,
    what: str,
    how: Bend,
    wanted: Callable[[Line], bool],
) -> None:
    bend(monkeypatch, wanted, how)
    proof = prove_drink(good, "iced")
    built = sum(wanted(line) and _can(good, line) for line in all_lines(good, "iced"))
    found = {(each.kind, each.what): each.count for each in proof.violations}
    assert found == {("not monotone", what): built}


def test_the_register_refuses_just_what_breaks_the_proof(good: Book, monkeypatch: pytest.MonkeyPatch) -> None:
    bent = bend(monkeypatch, lambda line: line.sugar == 100 and line.shots == 1, unsweetened)
    for line in all_lines(good, "iced"):
        if not _can(good, line):
            continue
        build = in_words(good, bent(good, line))
        objection = verdict.objection(good, build)
        if line.sugar == 100 and line.shots == 1:
            assert objection is not None
            assert objection.what == "sugar"
            with pytest.raises(Refusal) as refused:
                verdict.refuse_unproved(good, build)
            assert (refused.value.field, refused.value.value) == ("sugar", "100")
        else:
            assert objection is None, (line, objection)


def test_a_refusal_that_blames_nothing_is_no_honest_one(good: Book, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(found: Resolved) -> Resolved:
        raise Refusal("too full", "the weather", "", "")

    bend(monkeypatch, one_line, refuse)
    proof = prove_drink(good, "iced")
    assert [(each.kind, each.what) for each in proof.violations] == [("no build", "refusal")]


def test_heat_cells_count_each_combination_once_for_each_modifier(good: Book) -> None:
    proof = prove_drink(good, "iced")
    by_modifier: dict[str, int] = {}
    for cell in proof.heat:
        by_modifier[cell.modifier] = by_modifier.get(cell.modifier, 0) + cell.built + cell.refused
    assert by_modifier == dict.fromkeys(("size", "sugar", "ice", "shots", "topping"), COMBINATIONS)


def test_the_report_fits_a_terminal_and_names_what_is_wrong() -> None:
    book = bar(iced=WARMER, good=GOOD.replace("Iced Tea", "Good Tea"))
    proofs = [prove_drink(book, drink) for drink in book.drinks]
    text = render(proofs, advice(book, proofs), book.tolerance_pct, "The proof does not hold.")
    assert max(map(len, text.splitlines())) <= 130
    assert "not monotone" in text
    assert text.endswith("The proof does not hold.\n")


def _can(book: Book, line: Line) -> bool:
    try:
        resolve(book, line)
    except Refusal:
        return False
    return True
