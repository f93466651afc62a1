"""Whole lines: defaults, canonical form, and a row for every way of being refused."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from recipes.asking.lines import complete, default_line
from recipes.asking.price import price
from recipes.book import Book
from recipes.model import HOT, Line, Refusal, ToppingChoice


def test_what_is_left_out_takes_the_usual(demo: Book) -> None:
    assert complete(demo, "taro_milk_tea") == default_line(demo, "taro_milk_tea")
    assert complete(demo, "hot_cocoa") == Line("hot_cocoa", "small", 100, HOT)


def test_zero_is_a_choice_and_no_gap(demo: Book) -> None:
    assert complete(demo, "taro_milk_tea", sugar=0).sugar == 0


def test_toppings_and_left_out_things_are_sorted(demo: Book) -> None:
    toppings = [ToppingChoice("pudding", half=True), ToppingChoice("pearls")]
    line = complete(demo, "taro_milk_tea", toppings=toppings, without=["creamer", "creamer"])
    assert line.toppings == (ToppingChoice("pearls"), ToppingChoice("pudding", half=True))
    assert line.without == ("creamer",)


def test_the_own_milk_is_no_choice(demo: Book) -> None:
    assert complete(demo, "jasmine_milk_tea", milk="whole") == complete(demo, "jasmine_milk_tea")
    assert complete(demo, "jasmine_milk_tea", milk="oat").milk == "oat"


def test_a_milk_is_the_recipe_s_own_only_where_choosing_it_changes_neither_cup_nor_bill(demo: Book) -> None:
    """Who chooses a milk that costs, or one where the recipe pours two, asks for something."""
    whole = replace(demo.milks["whole"], price=50)
    dear = replace(demo, milks={**demo.milks, "whole": whole})
    assert complete(dear, "jasmine_milk_tea", milk="whole").milk == "whole"
    drink = demo.drinks["jasmine_milk_tea"]
    pour = next(step for step in drink.steps if step.role == "milk" and step.when == "iced")
    other = replace(pour, ingredient=demo.milks["oat"].ingredient)
    two = replace(drink, steps=(*drink.steps, other))
    mixed = replace(demo, drinks={**demo.drinks, drink.id: two})
    assert complete(mixed, drink.id, milk="whole").milk == "whole"


FOUR = [ToppingChoice(each) for each in ("pearls", "popping", "pudding", "red_beans")]

REFUSED: list[tuple[dict[str, Any], str, str, str, str]] = [
    ({"drink": "cola"}, "unknown drink", "drink", "cola", "taro_milk_tea"),
    ({"size": "huge"}, "unknown size", "size", "huge", "large"),
    ({"drink": "hot_cocoa", "size": "large"}, "size not offered", "size", "large", "medium"),
    ({"sugar": 33}, "unknown sugar", "sugar", "33", "50"),
    ({"drink": "ginger_lemon_tea", "sugar": 0}, "sugar not offered", "sugar", "0", "50"),
    ({"ice": "lots"}, "unknown ice", "ice", "lots", "less"),
    ({"drink": "hot_cocoa", "ice": "less"}, "ice not offered", "ice", "less", "hot"),
    ({"drink": "mango_green_tea", "ice": "hot"}, "ice not offered", "ice", "hot", "none"),
    ({"shots": 3}, "too many shots", "shots", "3", "2"),
    ({"shots": -1}, "too many shots", "shots", "-1", "0"),
    ({"drink": "mango_green_tea", "shots": 1}, "too many shots", "shots", "1", "0"),
    ({"toppings": [ToppingChoice("gold")]}, "unknown topping", "toppings", "gold", "pearls"),
    (
        {"drink": "hot_cocoa", "toppings": [ToppingChoice("aloe")]},
        "topping not offered",
        "toppings",
        "aloe",
        "red_beans",
    ),
    (
        {"toppings": [ToppingChoice("pudding"), ToppingChoice("pudding", True)]},
        "topping twice",
        "toppings",
        "pudding",
        "",
    ),
    ({"toppings": FOUR}, "too many toppings", "toppings", "4", "pudding"),
    ({"drink": "jasmine_milk_tea", "milk": "yak"}, "unknown milk", "milk", "yak", "oat"),
    ({"milk": "oat"}, "milk not offered", "milk", "oat", ""),
    ({"without": ["taro_powder"]}, "cannot leave out", "without", "taro_powder", "creamer"),
    ({"without": ["ice"]}, "nothing to leave out", "without", "ice", "creamer"),
    ({"without": ["gold"]}, "nothing to leave out", "without", "gold", "creamer"),
]


@pytest.mark.parametrize(("asked", "code", "field", "value", "accepted"), REFUSED)
def test_what_the_book_does_not_offer_is_refused(
    demo: Book, asked: dict[str, Any], code: str, field: str, value: str, accepted: str
) -> None:
    with pytest.raises(Refusal) as refused:
        complete(demo, **{"drink": "taro_milk_tea", **asked})
    refusal = refused.value
    assert (refusal.code, refusal.field, refusal.value) == (code, field, value)
    assert accepted in refusal.accepted or not accepted
    assert refusal.message.endswith(".")


def test_what_cannot_be_left_out_says_what_the_drink_would_lose(demo: Book) -> None:
    with pytest.raises(Refusal, match="cannot be made without taro powder: nothing would taste of taro"):
        complete(demo, "taro_milk_tea", without=["taro_powder"])


def test_a_price_is_the_sum_of_its_parts(demo: Book) -> None:
    """4.90 + 0.90 shot + 0.70 pearls + 0.30 half grass jelly + 0.50 oat milk, by the demo's prices."""
    line = complete(
        demo, "roasted_oolong_milk_tea", shots=1, milk="oat",
        toppings=[ToppingChoice("pearls"), ToppingChoice("grass_jelly", half=True)],
    )  # fmt: skip
    assert price(demo, line) == 490 + 90 + 70 + 30 + 50
    assert price(demo, complete(demo, "roasted_oolong_milk_tea", milk="whole")) == 490


def test_half_a_portion_costs_half_rounded_up_unless_the_book_says_otherwise(powder_bar: Book) -> None:
    halves = {topping.id: topping.half_price for topping in powder_bar.toppings.values()}
    assert halves == {"pearls": 33, "popping": 45, "jelly": 30}  # of 0.65, 0.80 (given as 0.45), 0.60
