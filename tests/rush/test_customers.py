"""The rush's customers: the same seed is the same rush, and all they ask for is on the menu."""

from __future__ import annotations

import pytest

from recipes.model import Line
from service.books.wire import (
    Choice,
    Family,
    Floor,
    Menu,
    MenuDrink,
    Shop,
    Size,
    Station,
    SugarLevel,
    TaxRule,
)
from service.rush.customers import rush

DRINK = MenuDrink(
    id="oolong",
    name="Oolong Milk Tea",
    family="milk",
    about="",
    prices={"small": 400, "large": 500},
    sizes=["small", "large"],
    sugars=[0, 50, 100],
    ices=["none", "regular", "hot"],
    shots=1,
    toppings=["pearls", "jelly"],
    milks=["whole", "oat"],
    without=[Choice(id="creamer", name="Creamer")],
    default=Line("oolong", "small", 100, "regular", milk="whole"),
    uses=["oolong-tea"],
)
PLAIN = DRINK.model_copy(
    update={
        "id": "plain",
        "shots": 0,
        "toppings": [],
        "milks": [],
        "without": [],
        "default": Line("plain", "small", 100, "regular"),
    }
)
MENU = Menu(
    book="0" * 16,
    shop=Shop(name="Tideglass Tea", town="Port Ellery", currency="EUR", minor_digits=2, time_zone="UTC"),
    floor=Floor(soon_s=300, late_s=480, bump="by hand", board_keeps_s=600),
    stations=[Station(id="tea", name="Tea")],
    families=[Family(id="milk", name="Milk teas")],
    drinks=[DRINK, PLAIN],
    sizes=[Size(id="small", name="Small", line_ml=350, brim_ml=380)],
    sugars=[SugarLevel(percent=100, name="full sugar")],
    ices=[],
    toppings=[
        Choice(id="pearls", name="pearls", price=60, half_price=30),
        Choice(id="jelly", name="jelly", price=60),
    ],
    toppings_max=3,
    milks=[],
    ingredients=[],
    shot_price=60,
    shot_item="espresso",
    tax=TaxRule(name="VAT", percent="10", included=True, rounded="order"),
    faults=[],
)


def test_the_same_seed_is_the_same_rush() -> None:
    assert rush(MENU, 7, 40, 300) == rush(MENU, 7, 40, 300)
    assert rush(MENU, 7, 40, 300) != rush(MENU, 8, 40, 300)


@pytest.mark.parametrize("seed", range(20))
def test_customers_come_in_order_within_the_rush_and_ask_only_for_what_the_menu_has(seed: int) -> None:
    arrivals = rush(MENU, seed, 50, 600)
    assert len(arrivals) == 50
    moments = [arrival.at_s for arrival in arrivals]
    assert moments == sorted(moments)
    assert 0 <= moments[0] <= moments[-1] <= 600
    menu = {drink.id: drink for drink in MENU.drinks}
    for drink in (drink for arrival in arrivals for drink in arrival.order.drinks):
        line, allowed = drink.line, menu[drink.line.drink]
        assert line.size in allowed.sizes
        assert line.sugar in allowed.sugars
        assert line.ice in allowed.ices
        assert line.shots <= allowed.shots
        assert {choice.topping for choice in line.toppings} <= set(allowed.toppings)
        assert line.milk in allowed.milks or (line.milk is None and not allowed.milks)
        assert set(line.without) <= {choice.id for choice in allowed.without}


def test_most_take_the_favourite_and_a_rush_bends_drinks_in_every_way() -> None:
    drinks = [drink for arrival in rush(MENU, 3, 400, 600) for drink in arrival.order.drinks]
    counts = {name: sum(drink.line.drink == name for drink in drinks) for name in ("oolong", "plain")}
    assert max(counts.values()) > 1.5 * min(counts.values())
    assert any(drink.line.shots for drink in drinks)
    halves = {topping.topping for drink in drinks for topping in drink.line.toppings if topping.half}
    assert halves == {"pearls"}, "jelly is served whole only"
    assert any(drink.line.without for drink in drinks)
    assert any(drink.line.milk == "oat" for drink in drinks)
    assert any(drink.line.ice == "hot" for drink in drinks)
