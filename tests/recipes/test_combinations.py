"""What can be rung in: every combination once, in a stable order, and nothing that lines would refuse."""

from __future__ import annotations

from itertools import combinations, islice, product

import pytest

from recipes.asking.combinations import all_lines, count
from recipes.asking.lines import complete
from recipes.book import Book
from recipes.model import Line, Refusal, ToppingChoice
from tests.recipes.cases import T6, bar

SMALL = T6.replace("shots = 2", 'shots = 1\nsugars = [0, 100]\nices = ["none", "regular"]').replace(
    "large = 5.00\n", ""
)
"""A drink of two sizes, two sugars, three ices (hot is one), 0 or 1 shot, three toppings and one thing to
leave out."""


def accepted_by_hand(book: Book) -> set[Line]:
    """Every line out of everything that the book names, kept when ``complete`` takes it as it is."""
    choices = [ToppingChoice(topping, half) for topping in book.toppings for half in (False, True)]
    cups = [chosen for n in range(book.toppings_max + 2) for chosen in combinations(choices, n)]
    found = set()
    for size, sugar, ice, shots, toppings, milk, without in product(
        book.sizes, book.sugars, book.ices, range(4), cups, [None, *book.milks], [(), ("creamer",), ("tea",)]
    ):
        try:
            found.add(complete(book, "it", size, sugar, ice, shots, toppings, milk, without))
        except Refusal:
            continue
    return found


def test_every_line_that_is_accepted_comes_once_and_no_other() -> None:
    book = bar(SMALL)
    lines = list(all_lines(book, "it"))
    assert len(lines) == len(set(lines))
    assert set(lines) == accepted_by_hand(book)


def test_they_are_counted_without_being_made(demo: Book) -> None:
    for book, drink in [(bar(SMALL), "it"), (demo, "hot_cocoa"), (demo, "lychee_oolong_tea")]:
        assert count(book, drink) == sum(1 for _ in all_lines(book, drink))


def test_their_order_is_stable(demo: Book) -> None:
    assert list(islice(all_lines(demo, "taro_milk_tea"), 3)) == [
        Line("taro_milk_tea", "small", sugar, "none") for sugar in (0, 25, 50)
    ]


@pytest.mark.parametrize("drink", ["taro_milk_tea", "roasted_oolong_milk_tea", "ginger_lemon_tea"])
def test_every_line_is_canonical(demo: Book, drink: str) -> None:
    for line in islice(all_lines(demo, drink), 0, None, 97):
        assert line == complete(
            demo, line.drink, line.size, line.sugar, line.ice, line.shots, line.toppings, line.milk,
            line.without,
        )  # fmt: skip


def test_the_demo_book_can_be_rung_in_in_some_hundreds_of_thousands_of_ways(demo: Book) -> None:
    """Wide enough to need a proof, and few enough to be proved before opening."""
    assert 300_000 <= sum(count(demo, drink) for drink in demo.drinks) <= 700_000
