"""The register under the thumb, and slips of the finger at it."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from tests.browser.pages import PHONE, REGISTER
from tests.running import RunningShop

pytestmark = pytest.mark.browser

Listen = Callable[[Page], Page]


def choose(page: Page, drink: str) -> None:
    page.get_by_role("navigation", name="Drinks").get_by_role("button", name=drink).click()


def add(page: Page, drink: str) -> None:
    choose(page, drink)
    page.get_by_role("button", name=re.compile("^Add to order")).click()


def wholly_on_screen(page: Page, at: Locator) -> bool:
    """Whether it can be touched where it stands, without scrolling."""
    box, size = at.bounding_box(), page.viewport_size
    assert box
    assert size
    return (
        box["y"] >= 0
        and box["y"] + box["height"] <= size["height"]
        and box["x"] + box["width"] <= size["width"]
    )


def test_on_a_phone_the_main_act_is_always_on_the_screen(
    shop: RunningShop, chromium: Browser, listen: Listen
) -> None:
    page = listen(chromium.new_page(viewport=PHONE))
    page.goto(f"{shop.url}/register")
    ring_in = page.get_by_role("button", name="Ring in", exact=True).last
    expect(ring_in).to_be_disabled()
    assert wholly_on_screen(page, ring_in)
    for way in page.get_by_role("navigation", name="Screens").get_by_role("link").all():
        assert wholly_on_screen(page, way)
    choose(page, "Taro Milk Tea")
    added = page.get_by_role("button", name=re.compile("^Add to order"))
    expect(added).to_be_enabled()
    assert wholly_on_screen(page, added)
    page.get_by_role("button", name=re.compile("^Toppings:")).click()
    assert wholly_on_screen(page, added)
    added.click()
    expect(ring_in).to_be_enabled()
    assert wholly_on_screen(page, ring_in)
    ring_in.click()
    expect(page.get_by_test_id("receipt-number")).to_have_text("1")
    assert wholly_on_screen(page, page.get_by_role("button", name="Next order"))
    page.close()


def test_a_line_removed_by_a_slip_is_put_back_and_a_new_one_comes_into_view(
    shop: RunningShop, chromium: Browser, listen: Listen
) -> None:
    page = listen(chromium.new_page(viewport=REGISTER))
    page.goto(f"{shop.url}/register")
    drinks = (
        "Taro Milk Tea",
        "Mango Green Tea",
        "Cocoa Cooler",
        "Lemon Black Tea",
        "Port Milk Tea",
        "Hot Cocoa",
    )
    for drink in drinks:
        add(page, drink)
    order = page.get_by_role("region", name="The order")
    expect(order.get_by_role("button", name="Edit Small Hot Cocoa")).to_be_in_viewport()
    order.get_by_role("button", name="Remove Medium Mango Green Tea").click()
    expect(order.get_by_role("button", name="Edit Medium Mango Green Tea")).to_have_count(0)
    order.get_by_role("button", name="Put back Medium Mango Green Tea").click()
    expect(order.get_by_role("button", name=re.compile("^Edit "))).to_have_count(len(drinks))
    expect(order.get_by_role("button", name=re.compile("^Edit ")).nth(1)).to_have_accessible_name(
        "Edit Medium Mango Green Tea"
    )
    page.close()


def test_what_runs_out_moves_no_button(shop: RunningShop, chromium: Browser, listen: Listen) -> None:
    page = listen(chromium.new_page(viewport=REGISTER))
    page.goto(f"{shop.url}/register")
    drinks = page.get_by_role("navigation", name="Drinks")
    expect(drinks.get_by_role("button", name="Hot Cocoa")).to_be_visible()
    before = [button.bounding_box() for button in drinks.get_by_role("button").all()]
    assert len(before) == 20
    # A name over two lines and one on a single line.
    for item in ("roasted_oolong_milk_tea", "cocoa_cooler"):
        shop.post("/api/sold-out", {"item": item, "sold_out": True})
    expect(drinks.get_by_text("sold out")).to_have_count(2)
    assert [button.bounding_box() for button in drinks.get_by_role("button").all()] == before
    page.close()
