"""What a book remembers changes nothing; and the same book gives the same builds in any process."""

from __future__ import annotations

import hashlib
import json
import os
import subprocess
import sys
from dataclasses import asdict
from itertools import islice
from pathlib import Path

import pytest

from recipes.asking.combinations import all_lines
from recipes.building.resolve import resolve
from recipes.model import Build, Refusal
from recipes.reading.reader import read_book
from tests.recipes.cases import DEMO

DRINKS = ("taro_milk_tea", "oolong_coffee_milk", "hot_cocoa")

PRINT = """
from tests.recipes.test_memory import digest
print(digest())
"""


EVERY = 887
"""Of all combinations of the demo menu one in so many is resolved: some hundreds, of every drink."""


def digest() -> str:
    """All that a sample of the demo menu comes to as JSON: how many lines, and the address of all of it."""
    book = read_book(DEMO)
    told = []
    for drink in book.drinks:
        for line in islice(all_lines(book, drink), 0, None, EVERY):
            try:
                told.append(json.dumps(asdict(resolve(book, line)), ensure_ascii=False))
            except Refusal as refusal:
                told.append(str(refusal))
    address = hashlib.sha256("\n".join(told).encode()).hexdigest()
    return f"{len(told)} {address}"


def test_cold_warm_and_forgetful_books_give_equal_builds(monkeypatch: pytest.MonkeyPatch) -> None:
    warm = read_book(DEMO)
    lines = [line for drink in DRINKS for line in islice(all_lines(warm, drink), 0, None, 499)]

    def made(clear: bool) -> list[Build | str]:
        builds: list[Build | str] = []
        for line in lines:
            if clear:
                for memory in (warm.memory.plans, warm.memory.made, warm.memory.toppings):
                    memory.clear()
            try:
                builds.append(resolve(warm, line))
            except Refusal as refusal:
                builds.append(str(refusal))
        return builds

    first, again, forgetful = made(clear=False), made(clear=False), made(clear=True)
    assert first == again == forgetful
    monkeypatch.setattr("recipes.building.drink.MOST_MADE", 3)
    monkeypatch.setattr("recipes.building.drink.MOST_PLANS", 2)
    monkeypatch.setattr("recipes.building.toppings.MOST_TOPPINGS", 2)
    assert made(clear=False) == first
    assert len(warm.memory.made) <= 3
    assert len(warm.memory.plans) <= 2
    assert len(warm.memory.toppings) <= 2


def test_processes_with_other_hash_seeds_give_the_same_builds() -> None:
    home = Path(__file__).parents[2]
    told = []
    for seed in ("0", "4711"):
        environment = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(home)}
        done = subprocess.run(
            [sys.executable, "-c", PRINT],
            cwd=home,
            env=environment,
            capture_output=True,
            text=True,
            check=True,
        )
        told.append(done.stdout.strip())
    assert told[0] == told[1] == digest()
    assert int(told[0].split()[0]) > 300
