"""The build on a terminal."""

from __future__ import annotations

import pytest

from recipes.asking.spoken import read_line
from recipes.book import Book
from recipes.building.resolve import resolve
from recipes.measures import amount
from service.cli.build_card import WIDTH, render, tallies

TEXT = (
    "large roasted oolong milk tea, less ice, 50% sugar, pearls and half grass jelly, oat milk, "
    "1 shot, no creamer"
)


def test_a_card_says_everything_that_the_build_says(demo: Book) -> None:
    build = resolve(demo, read_line(demo, TEXT))
    card = render(build)
    flat = " ".join(card.replace("!", " ").split())
    assert card.startswith("Large Roasted Oolong Milk Tea\n  less ice · half sugar")
    for step in build.steps:
        assert step.short in card or step.text[:30] in flat
    for caution in build.cautions:
        assert caution.words in flat
    for note in build.notes:
        assert note.words in flat
    for allergen in build.allergens:
        assert allergen in card
    for layer in build.fill.layers:
        assert f"{layer.volume_ml:.0f} ml" in card


def test_every_card_of_the_menu_keeps_to_its_width(demo: Book) -> None:
    for drink in demo.drinks.values():
        card = render(resolve(demo, drink.default))
        assert max(len(line) for line in card.splitlines()) <= WIDTH
        assert "\x1b" not in card


def test_amounts_stand_in_one_column(demo: Book) -> None:
    lines = render(resolve(demo, read_line(demo, TEXT))).splitlines()
    places = {
        line.index(name)
        for line in lines
        for name in ("Pearls ", "Fructose", "Oat milk  ", "Ice   ")
        if name in line
    }
    assert len(places) == 1


@pytest.mark.parametrize(
    ("tool", "count", "marks"),
    [
        ("scoop", 2, "❙❙"),
        ("scoop", 1.5, "❙╻"),
        ("scoop", 0.5, "╻"),
        ("pump", 7, "❙❙❙❙❙ ❙❙"),
        ("pump", 5, "❙❙❙❙❙"),
        ("pump", 10, "❙❙❙❙❙ ❙❙❙❙❙"),
        ("pump", 23, ""),
        ("ice_scoop", 2.5, "❙❙╻"),
        ("jug", 120, ""),
    ],
)
def test_tallies_are_counted_at_a_glance(demo: Book, tool: str, count: float, marks: str) -> None:
    ingredient = demo.pantry["creamer"]
    assert tallies(amount(demo.tools[tool], ingredient, count * demo.tools[tool].unit_ml)) == marks


def test_the_vessel_is_named_once_and_steamed_milk_with_its_heat(demo: Book) -> None:
    """The book: taro is the first thing into the shaker; the pantry heats whole milk to 65 °C."""
    shaken = render(resolve(demo, read_line(demo, "large taro milk tea"))).splitlines()
    assert ["→ shaker" in line for line in shaken].count(True) == 1
    assert "→ shaker" in next(line for line in shaken if "Taro  " in line)
    steamed = render(resolve(demo, read_line(demo, "small steamed matcha milk"))).splitlines()
    assert "to 65 °C" in next(line for line in steamed if "Whole milk  " in line)
