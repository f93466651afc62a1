"""Training: the drink is the same from the same seed, hides its amounts, and is judged by the exact build."""

from __future__ import annotations

import json
from itertools import pairwise

import pytest

from recipes.book import Book
from recipes.building.resolve import resolve
from recipes.reading.reader import read_book
from service.cli.books import DEMO
from service.learning.training import check, training_drink

SEEDS = range(40)


@pytest.fixture(scope="module")
def demo() -> Book:
    return read_book(DEMO)


def test_a_seed_names_a_drink(demo: Book) -> None:
    assert training_drink(demo, 7, False) == training_drink(demo, 7, False)
    assert len({training_drink(demo, seed, False).line for seed in SEEDS}) > 30


def test_a_step_shows_neither_its_station_nor_its_amount(demo: Book) -> None:
    for seed in SEEDS:
        for step in training_drink(demo, seed, False).steps:
            shown = json.loads(step.model_dump_json())
            assert set(shown) == {"number", "action", "label", "asks", "kind", "unit", "choices"}


def test_exactly_one_choice_is_right(demo: Book) -> None:
    for seed in SEEDS:
        drink = training_drink(demo, seed, False)
        build = resolve(demo, drink.line)
        for shown, step in zip(drink.steps, build.steps, strict=True):
            answers = [check(demo, build, step, step.station, each.count, None) for each in shown.choices]
            if shown.asks == "station":
                assert answers == []
                assert check(demo, build, step, step.station, None, None).right
                continue
            assert [answer.right for answer in answers].count(True) == 1
            counts = [each.count for each in shown.choices]
            assert counts == sorted(set(counts))
            assert all(count > 0 for count in counts)


def test_a_wrong_answer_is_told_what_is_right_and_why(demo: Book) -> None:
    from recipes.asking.lines import complete

    line = complete(demo, "black_sesame_milk_tea", sugar=50)
    build = resolve(demo, line)
    step = next(step for step in build.steps if step.ingredient == "fructose")
    assert step.amount is not None
    told = check(demo, build, step, "seal", step.amount.count + 1, None)
    assert (told.right, told.station_right, told.count_right) == (False, False, False)
    assert (told.station, told.count, told.text) == (step.station, step.amount.count, step.text)
    assert "half sugar" in told.why
    assert "Scoop & pump" in told.why
    only_count = check(demo, build, step, step.station, step.amount.count + 1, None)
    assert "Scoop & pump" not in only_count.why, "who knew the station is not told it"
    assert "half sugar" in only_count.why


def test_the_station_alone_can_be_wrong(demo: Book) -> None:
    drink = training_drink(demo, 3, False)
    build = resolve(demo, drink.line)
    step = build.steps[0]
    other = next(station for station in demo.stations if station != step.station)
    right = step.amount.count if step.amount else step.duration.high_s if step.duration else None
    told = check(demo, build, step, other, right, None)
    assert (told.right, told.station_right, told.count_right) == (False, False, True)


def test_only_what_hands_can_know_is_asked(demo: Book) -> None:
    """Nothing read off in ml, and counts a whole unit apart; the pantry steams whole milk to 65 °C."""
    heats = 0
    for seed in SEEDS:
        drink = training_drink(demo, seed, False)
        for step in drink.steps:
            counts = [each.count for each in step.choices]
            if step.asks == "amount":
                assert step.unit != "ml"
                assert {later - one for one, later in pairwise(counts)} == {1}
            if step.asks == "heat":
                heats += 1
                assert 65 in counts
    assert heats > 0
