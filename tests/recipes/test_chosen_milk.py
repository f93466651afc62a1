"""Who chooses a milk, often for an allergy, gets that milk and no other, whatever the ice and size."""

from __future__ import annotations

from itertools import product

import pytest

from recipes.asking.lines import complete
from recipes.book import Book
from recipes.building.resolve import resolve
from recipes.model import Refusal


def test_no_build_mixes_in_another_milk_of_the_menu(demo: Book) -> None:
    every_milk = {milk.ingredient for milk in demo.milks.values()}
    built = 0
    for drink in demo.drinks.values():
        for milk, size, ice in product(drink.milks, drink.sizes, drink.ices):
            try:
                build = resolve(demo, complete(demo, drink.id, size=size, ice=ice, milk=milk))
            except Refusal:
                continue
            assert every_milk & set(build.uses) <= {demo.milks[milk].ingredient}, (drink.id, milk, size, ice)
            built += 1
    assert built > 100


@pytest.mark.parametrize("ice", ["none", "less"])
def test_a_top_up_with_milk_is_the_milk_chosen(demo: Book, ice: str) -> None:
    """Brown sugar milk is topped up with milk where ice is left out: EU list of allergens, oats and milk."""
    build = resolve(demo, complete(demo, "brown_sugar_milk", ice=ice, milk="oat"))
    assert "milk" not in build.allergens
    assert "oats (gluten)" in build.allergens
