"""A cup of an order that is rung in: changed, made again and struck off at the register; the bar is told."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from tests.browser.pages import PHONE, REGISTER, WALL, Viewport
from tests.running import RunningShop

pytestmark = pytest.mark.browser

Listen = Callable[[Page], Page]


def ring_in(shop: RunningShop, *drinks: str) -> None:
    shop.post("/api/orders", {"name": "Ana", "drinks": [{"line": {"drink": drink}} for drink in drinks]})


def cups_of(page: Page, number: int) -> Locator:
    page.get_by_role("button", name="Today’s orders").click()
    page.get_by_role("button", name=f"Change a cup of number {number}").click()
    dialog = page.get_by_role("dialog", name=f"The cups of number {number}")
    expect(dialog.get_by_role("listitem").first).to_be_visible()
    return dialog


@pytest.mark.parametrize("viewport", [REGISTER, PHONE], ids=["register", "phone"])
def test_a_cup_is_changed_in_its_place_and_the_bar_is_told(
    shop: RunningShop, chromium: Browser, listen: Listen, viewport: Viewport
) -> None:
    """Pearls are 0.70 in the demo book: so much more is to be paid, whatever else the order holds."""
    page, bar = (listen(chromium.new_page(viewport=each)) for each in (viewport, WALL))
    ring_in(shop, "taro_milk_tea", "mango_green_tea")
    ring_in(shop, "cocoa_cooler")
    bar.goto(f"{shop.url}/bar")
    expect(bar.get_by_role("row", name=re.compile("^Drink 1, number 1: Medium Taro"))).to_be_visible()
    page.goto(f"{shop.url}/register")
    cups_of(page, 1).get_by_role("button", name=re.compile("^Change Medium Taro Milk Tea")).click()
    line = page.get_by_role("region", name="The line")
    expect(line).to_contain_text("A cup of number 1 (Ana) so far Medium Taro Milk Tea")
    line.get_by_role("button", name=re.compile("^Toppings:")).click()
    line.get_by_role("button", name=re.compile("^Whole pearls")).click()
    line.get_by_role("button", name=re.compile("^Change this cup .*€0.70 to be paid")).click()
    expect(page.get_by_text("Number 1: €0.70 to be paid")).to_be_visible()

    row = bar.get_by_role("row", name=re.compile("^Drink 1, number 1: Medium Taro"))
    expect(row).to_contain_text("⇄ changed")
    expect(row.get_by_role("gridcell", name=re.compile("^Toppings: to do, 1 ladle Pearls"))).to_be_visible()
    told = bar.get_by_role("alert").get_by_role("listitem")
    expect(told).to_have_text(
        re.compile(r"1 \(Ana\): a cup changed\s*Medium Taro Milk Tea Medium Taro Milk Tea, pearls")
    )
    told.get_by_role("button", name="1 (Ana): a cup changed: Seen").click()
    expect(told).to_have_count(0)

    page.get_by_role("button", name="Done: number 1").click()
    expect(page.get_by_text("Number 1: €0.70 to be paid")).to_have_count(0)
    page.get_by_role("button", name="Today’s orders").click()
    order = page.get_by_role("row").filter(has_text="Ana").last
    expect(order).to_contain_text("changed")
    expect(order).to_contain_text("€0.70 to be paid")
    for each in (page, bar):
        each.close()


def test_a_cup_that_the_bar_began_meanwhile_is_made_again_as_another(
    shop: RunningShop, chromium: Browser, listen: Listen
) -> None:
    page = listen(chromium.new_page(viewport=REGISTER))
    ring_in(shop, "taro_milk_tea")
    page.goto(f"{shop.url}/register")
    cups_of(page, 1).get_by_role("button", name=re.compile("^Change Medium Taro")).click()
    line = page.get_by_role("region", name="The line")
    expect(line.get_by_role("button", name=re.compile("^Change this cup"))).to_be_visible()
    shop.post("/api/drinks/1.1/start", {"step": 1})
    expect(line).to_contain_text("being made: it is thrown away and made again")
    page.get_by_role("navigation", name="Drinks").get_by_role("button", name="Lemon Black Tea").click()
    line.get_by_role("button", name="Wrong build").click()
    line.get_by_role("button", name=re.compile("^Make it again as this")).click()
    expect(line).to_contain_text("Choose a drink")
    (ticket,) = shop.get("/api/queue")["tickets"]
    (cup,) = ticket["drinks"]
    assert (cup["id"], cup["state"], cup["remade_why"]) == ("1.1", "waiting", "Wrong build")
    assert shop.get("/api/queue")["builds"][cup["build"]]["line"]["drink"] == "lemon_black_tea"
    page.close()


def test_a_made_cup_is_made_again_and_another_is_struck_off(
    shop: RunningShop, chromium: Browser, listen: Listen
) -> None:
    """The medium mango is 4.80 in the demo book: so much is given back once it is struck off."""
    page, bar = (listen(chromium.new_page(viewport=each)) for each in (REGISTER, WALL))
    ring_in(shop, "taro_milk_tea", "mango_green_tea")
    shop.post("/api/drinks/1.1/bump", {})
    bar.goto(f"{shop.url}/bar")
    expect(bar.get_by_role("row", name=re.compile("Mango"))).to_have_count(1)
    page.goto(f"{shop.url}/register")
    cups = cups_of(page, 1)
    cups.get_by_role("button", name=re.compile("^Make again Medium Taro")).click()
    again = cups.get_by_role("button", name="Make Medium Taro Milk Tea again")
    expect(again).to_be_disabled()
    cups.get_by_role("button", name="Spilled").click()
    again.click()
    expect(cups).to_have_count(0)
    expect(bar.get_by_role("row", name=re.compile("^Drink 1, number 1: Medium Taro"))).to_contain_text(
        "⇄ again: Spilled"
    )
    expect(bar.get_by_role("listitem").filter(has_text="1 (Ana): a cup again: Spilled")).to_be_visible()

    cups = cups_of(page, 1)
    expect(cups.get_by_role("listitem").first).to_contain_text("not begun, made again: Spilled")
    cups.get_by_role("button", name=re.compile("^Void Medium Mango")).click()
    expect(cups).to_contain_text("€4.80 to be given back")
    cups.get_by_role("button", name="Cannot be made").click()
    cups.get_by_role("button", name="Void Medium Mango Green Tea", exact=True).click()
    expect(page.get_by_text("Number 1: €4.80 to be given back")).to_be_visible()
    expect(bar.get_by_role("row", name=re.compile("Mango.*, void$"))).to_have_count(1)
    for each in (page, bar):
        each.close()


def test_a_cup_of_an_order_handed_off_comes_back_before_it_is_made_again(
    shop: RunningShop, chromium: Browser, listen: Listen
) -> None:
    page = listen(chromium.new_page(viewport=REGISTER))
    ring_in(shop, "taro_milk_tea")
    shop.post("/api/tickets/1/bump", {})
    shop.post("/api/tickets/1/hand-off", {})
    page.goto(f"{shop.url}/register")
    page.get_by_role("button", name="Today’s orders").click()
    page.get_by_role("button", name="Change a cup of number 1").click()
    cups = page.get_by_role("dialog", name="The cups of number 1")
    cups.get_by_role("button", name="Take back the hand-off").click()
    cups.get_by_role("button", name=re.compile("^Make again Medium Taro")).click()
    cups.get_by_role("button", name="Wrong build").click()
    cups.get_by_role("button", name="Make Medium Taro Milk Tea again").click()
    expect(cups).to_have_count(0)
    assert shop.get("/api/queue")["tickets"][0]["state"] == "waiting"
    page.close()
