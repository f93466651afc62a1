"""Amounts as an owner writes them, size by size and for the hot drink: obeyed to the letter, the rest
scaled.
"""

from __future__ import annotations

from contextlib import suppress

import pytest

from recipes.asking.lines import complete
from recipes.book import Book
from recipes.building.resolve import resolve
from recipes.model import HOT, Build, Refusal, ToppingChoice
from recipes.reading.faults import BookRefused
from tests.recipes.cases import PANTRY, SHOP, T6, bar, entry

LETTERS = "abcdefghij"

BY_SIZE = (
    T6.replace('"2 scoops"', '{ medium = "2 scoops", large = "3½ scoops" }', 1)
    .replace('amount = "25 ml"', 'amount = "25 ml"\nhot = { medium = "120 ml", small = "90 ml" }')
    .replace('hot = "hot_water"\n', "")
)  # fmt: skip
"""The powder of a large and the water of a hot one in the owner's own amounts."""

SHOT = T6.replace(
    '[[steps]]\nstation = "tea"',
    '[[steps]]\nstation = "espresso"\ndo = "pull"\nwhat = "espresso"\namount = "1 shot"\n'
    '[[steps]]\nstation = "tea"',
    1,
).replace("7 cubes", "4 cubes")  # fmt: skip
"""The powder milk tea with a shot of its own."""


def counts(build: Build) -> dict[str, float]:
    """How much of each ingredient, in its tool's units."""
    return {step.ingredient: step.amount.count for step in build.steps if step.ingredient and step.amount}


def test_what_is_written_for_a_size_is_obeyed_to_the_letter() -> None:
    book = bar(BY_SIZE)
    large = resolve(book, complete(book, "it", size="large"))
    assert counts(large)["powder"] == 3.5
    # What is not written is scaled by the seal lines, 600 to 400 ml.
    assert counts(large)["creamer"] == 3
    assert counts(large)["tea"] == 150
    assert not large.errors[0].is_told
    small = resolve(book, complete(book, "it", size="small"))
    assert counts(small)["powder"] == 1.5


def test_the_hot_drink_takes_what_is_written_for_it_and_else_the_same() -> None:
    book = bar(BY_SIZE)
    for size, water in (("medium", 120), ("small", 90), ("large", 180)):  # 180 ml: 120 scaled by 600/400
        hot = counts(resolve(book, complete(book, "it", size=size, ice=HOT)))
        iced = counts(resolve(book, complete(book, "it", size=size)))
        assert hot["hot_water"] == water
        assert hot["powder"] == iced["powder"]
        assert hot["creamer"] == iced["creamer"]
        assert hot["fructose"] == iced["fructose"]


def test_the_size_that_the_steps_are_written_for_must_be_among_them() -> None:
    with pytest.raises(BookRefused, match=r"amount\.medium: is missing; accepted: an amount for medium"):
        bar(T6.replace('amount = "2 scoops"', 'amount = { small = "1 scoop", large = "3 scoops" }', 1))
    with pytest.raises(BookRefused, match=r"steps\.1\.amount\.huge: is not a key here"):
        bar(T6.replace('amount = "2 scoops"', 'amount = { medium = "2 scoops", huge = "9 scoops" }', 1))
    with pytest.raises(BookRefused, match=r"steps\.1\.hot: .*not a measure of this bar"):
        bar(T6.replace('amount = "2 scoops"', 'amount = "2 scoops"\nhot = "3 thumbs"', 1))


def test_a_shot_is_pulled_whole_and_the_tea_is_balanced_around_it() -> None:
    """A large would want 1.5 shots of 40 ml: two are 20 ml more, which the tea leaves out of its 150; a small
    wants 0.75: one is 10 ml more than 30, and 75 ml of tea are 65."""
    book = bar(SHOT)
    large, small = (counts(resolve(book, complete(book, "it", size=size))) for size in ("large", "small"))
    assert (large["espresso"], large["tea"]) == (2, 150 - 20)
    assert (small["espresso"], small["tea"]) == (1, 75 - 10)
    written = bar(SHOT.replace('amount = "1 shot"', 'amount = { medium = "1 shot", large = "1 shot" }'))
    large = counts(resolve(written, complete(written, "it", size="large")))
    assert (large["espresso"], large["tea"]) == (1, 150)


def test_the_recipes_shot_and_extra_ones_are_one_amount() -> None:
    book = bar(SHOT)
    build = resolve(book, complete(book, "it", shots=1))
    shots = [step for step in build.steps if step.ingredient == "espresso"]
    assert [step.amount.count for step in shots if step.amount] == [2]
    assert shots[0].text == "Pull 2 shots of espresso, pour them in"


def test_a_sugar_level_is_the_nearest_whole_stroke(demo: Book) -> None:
    """n strokes at 25, 50, 75 and 125 per cent, ties up (arithmetic): 4 give 1, 2, 3, 5 and 5 give 1, 3, 4,
    6.
    """
    for size, strokes in (
        ("small", (1, 2, 3, 4, 5)),
        ("medium", (1, 3, 4, 5, 6)),
        ("large", (2, 4, 6, 8, 10)),
    ):
        found = [
            counts(resolve(demo, complete(demo, "taro_milk_tea", size=size, sugar=sugar)))["fructose"]
            for sugar in (25, 50, 75, 100, 125)
        ]
        assert tuple(found) == strokes


def test_ice_levels_differ_by_a_hands_measure(demo: Book) -> None:
    for drink in demo.drinks.values():
        for size in drink.sizes if "less" in drink.ices else ():
            ices = [
                counts(resolve(demo, complete(demo, drink.id, size=size, ice=ice))).get("ice", 0)
                for ice in ("none", "less", "regular")
            ]
            assert ices[0] == 0
            assert 0 < ices[1] < ices[2]
            assert ices[1] <= 0.67 * ices[2]


def test_every_plain_line_of_the_demo_is_as_its_owner_wrote_it(demo: Book) -> None:
    plain = 0
    for drink in demo.drinks.values():
        for size in drink.sizes:
            for ice in {drink.default.ice, *({HOT} & set(drink.ices))}:
                build = resolve(demo, complete(demo, drink.id, size=size, ice=ice))
                given = counts(build)
                for step in drink.steps:
                    if step.ingredient is None or step.when == ("iced" if ice == HOT else "hot"):
                        continue
                    amount = step.written(size, ice == HOT)
                    assert amount is not None, (drink.id, size, step.ingredient)
                    if step.role != "ice" or ice != HOT:
                        what = step.instead.get(ice, step.ingredient)
                        assert given[what] * demo.tools[amount.tool].unit_ml == pytest.approx(amount.ml)
                assert build.score == 0
                plain += 1
    assert plain > 80


@pytest.mark.parametrize(
    "shop",
    [
        SHOP.replace('holds = "7 ml"', 'holds = "2 fl oz"'),
        SHOP.replace('holds = "18 ml"\nsmallest = "1/2"', 'holds = "66 ml"\nsmallest = "1"'),
        SHOP.replace('kind = "jug"\nsmallest = "5"', 'kind = "jug"\nsmallest = "100"'),
    ],
)
def test_a_tool_far_too_coarse_ends_the_search_within_its_limit_of_work(shop: str) -> None:
    """Whatever comes of it, build or refusal, it comes: one mistyped figure once kept a reader for hours."""
    book = bar(shop=shop)
    for ice in ("none", "less", "regular", "extra", HOT):
        for toppings in ((), ("pearls", "jelly")):
            line = complete(book, "it", ice=ice, toppings=[ToppingChoice(each) for each in toppings])
            with suppress(Refusal):
                assert resolve(book, line).steps


def test_what_cannot_be_settled_names_the_tool_step_at_fault() -> None:
    """Ten things of 3 ml from a jug read in 10 ml steps: each is nothing or three times too much."""
    step = '[[steps]]\nstation = "scoop"\ndo = "pour"\nwhat = "thing_{}"\namount = "3 ml"\n'
    many = "".join(step.format(letter) for letter in LETTERS)
    recipe = T6.replace(
        '[[steps]]\nstation = "scoop"\ndo = "stir"', many + '[[steps]]\nstation = "scoop"\ndo = "stir"'
    )
    pantry = PANTRY + "".join(
        entry(f"thing_{each}", f"Thing {each}", "liquid", "1.0", dry="10 %") for each in LETTERS
    )
    shop = SHOP.replace('kind = "jug"\nsmallest = "5"', 'kind = "jug"\nsmallest = "10"')
    with pytest.raises(BookRefused, match="One 10 ml step of the jug is too far from the 4 ml of thing a"):
        bar(recipe, pantry=pantry, shop=shop)
