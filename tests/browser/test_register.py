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
    # It stands where the other stood: what comes within 300 ms is a finger that bounced.
    page.wait_for_function("since => performance.now() > since + 350", arg=page.evaluate("performance.now()"))
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


def test_no_touch_loses_the_drink_that_is_open(shop: RunningShop, chromium: Browser, listen: Listen) -> None:
    """Taro 4.80, lemon and jasmine as in the demo book; the lemon was touched by mistake."""
    page = listen(chromium.new_page(viewport=REGISTER))
    page.goto(f"{shop.url}/register")
    line, order = (page.get_by_role("region", name=name) for name in ("The line", "The order"))
    choose(page, "Taro Milk Tea")
    choose(page, "Lemon Black Tea")
    expect(order.get_by_role("button", name="Edit Medium Taro Milk Tea")).to_be_visible()
    choose(page, "Jasmine Milk Tea")
    expect(line.get_by_role("status")).to_contain_text("In the order: Medium Lemon Black Tea")
    line.get_by_role("button", name="Not wanted: Medium Lemon Black Tea").click()
    expect(order.get_by_role("button", name=re.compile("^Edit "))).to_have_count(1)
    expect(order).to_contain_text("2 drinks, one still open")
    order.get_by_role("button", name="Ring in", exact=True).click()
    receipt = page.get_by_role("region", name="Receipt")
    expect(receipt.get_by_role("listitem")).to_have_text(
        [re.compile("1 × Medium Taro Milk Tea"), re.compile("1 × Medium Jasmine Milk Tea")]
    )
    page.close()


def test_the_open_drink_is_there_after_a_reload_and_after_another_page(
    shop: RunningShop, chromium: Browser, listen: Listen
) -> None:
    page = listen(chromium.new_page(viewport=REGISTER))
    page.goto(f"{shop.url}/register")
    line = page.get_by_role("region", name="The line")
    choose(page, "Taro Milk Tea")
    line.get_by_role("button", name=re.compile("^Sugar:")).click()
    line.get_by_role("button", name=re.compile("^Half sugar")).click()
    page.reload()
    expect(line.get_by_role("button", name="Sugar: half sugar")).to_have_attribute("aria-expanded", "true")
    page.get_by_role("link", name="Bar sheet").click()
    expect(page.get_by_text("No drinks in the queue")).to_be_visible()
    page.go_back()
    expect(line.get_by_role("button", name="Sugar: half sugar")).to_be_visible()
    expect(line.get_by_role("button", name=re.compile("^Add to order .*4.80"))).to_be_enabled()
    page.close()


def test_by_keyboard_the_focus_is_where_the_next_act_is(
    shop: RunningShop, chromium: Browser, listen: Listen
) -> None:
    page = listen(chromium.new_page(viewport=REGISTER))
    page.goto(f"{shop.url}/register")
    drinks = page.get_by_role("navigation", name="Drinks")
    line, order = (page.get_by_role("region", name=name) for name in ("The line", "The order"))
    taro = drinks.get_by_role("button", name="Taro Milk Tea")
    taro.focus()
    page.keyboard.press("Enter")
    expect(line.get_by_role("button", name="Size: medium")).to_be_focused()
    # One step back at a time: out of the choices, then out of the line, which can be taken up again.
    page.keyboard.press("Escape")
    expect(line.get_by_role("button", name="Size: medium")).to_have_attribute("aria-expanded", "false")
    page.keyboard.press("Escape")
    expect(taro).to_be_focused()
    order.get_by_role("button", name=re.compile("^Take up again")).click()
    line.get_by_role("button", name=re.compile("^Milk|^Toppings")).first.focus()
    page.keyboard.press("Enter")
    whole = line.get_by_role("button", name=re.compile("^Whole pearls"))
    whole.focus()
    page.keyboard.press("Enter")
    page.keyboard.press("Escape")
    expect(line.get_by_role("button", name="Toppings: pearls")).to_be_focused()
    add_button = line.get_by_role("button", name=re.compile("^Add to order"))
    expect(add_button).to_be_enabled()
    add_button.focus()
    page.keyboard.press("Enter")
    ring_in = order.get_by_role("button", name="Ring in", exact=True)
    expect(ring_in).to_be_focused()
    name = order.get_by_label("Name for calling")
    name.fill("Ana")
    name.press("Enter")
    # The key that ends the name on a tablet's own keyboard must not ring in.
    expect(ring_in).to_be_focused()
    assert shop.get("/api/orders")["orders"] == []
    page.keyboard.press("Enter")
    next_order = page.get_by_role("button", name="Next order")
    expect(next_order).to_be_focused()
    page.keyboard.press("Enter")
    expect(drinks.get_by_role("button").first).to_be_focused()
    page.close()


# What is read on a button must be in the name by which it is called (WCAG 2.2, 2.5.3 Label in Name).
LABELS = """
() => {
  const words = (text) => text.toLowerCase().replace(/[^\\p{L}\\p{N}]+/gu, " ").trim();
  const parts = [...document.querySelectorAll("[aria-label]:is(button, a, input, [role=switch])")];
  const shown = parts.filter((part) => part.checkVisibility());
  const wrong = shown.filter((part) => !words(part.ariaLabel).includes(words(part.innerText)));
  return { count: shown.length, wrong: wrong.map((part) => `${part.ariaLabel} | ${part.innerText}`) };
}
"""


def test_what_is_read_on_a_button_is_in_its_name(
    shop: RunningShop, chromium: Browser, listen: Listen
) -> None:
    page = listen(chromium.new_page(viewport=REGISTER))
    page.goto(f"{shop.url}/register")
    line = page.get_by_role("region", name="The line")
    seen: list[int] = []

    def check() -> None:
        found = page.evaluate(LABELS)
        assert found["wrong"] == []
        seen.append(found["count"])

    choose(page, "Taro Milk Tea")
    add(page, "Mango Green Tea")
    choose(page, "Jasmine Milk Tea")
    for word in line.get_by_role("button", expanded=False).all():
        word.click()
        check()
    page.get_by_role("button", name="Ring in", exact=True).last.click()
    expect(page.get_by_test_id("receipt-number")).to_have_text("1")
    check()
    page.get_by_role("button", name="Today’s orders").click()
    expect(page.get_by_role("button", name="Void number 1")).to_be_visible()
    check()
    page.get_by_role("button", name="Sold out", exact=True).click()
    expect(page.get_by_role("heading", name="Sold out")).to_be_visible()
    check()
    assert sum(seen) > 20, "there was something to look at"
    page.close()
