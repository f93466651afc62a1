"""The main job on the real screens: ring in a bent drink, build it by the timers, bump, hand off, review."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from tests.browser.pages import REGISTER, WALL
from tests.running import RunningShop

pytestmark = pytest.mark.browser

# Worked by hand from the recipe card in the demo book (medium): 2 scoops of taro, 2 of creamer, 4 strokes
# of fructose, 30 ml of hot water, 150 ml of tea, 8 cubes. Half sugar halves the strokes; the shot stands
# in for the dissolving water (common practice: a hot shot takes its place, it is not added to it).
BUILD = {
    "Toppings": "1 ladle Pearls",
    "Scoop & pump": "2 scoops Taro into the shaker, 2 scoops Creamer, 3 strokes Fructose",
    "Espresso & steam": "1 shot Espresso, Stir",
    "Tea & milk": "180 ml Black tea",
    "Ice & shake": "1½ ice scoops Ice, Shake",
    "Seal": "Seal",
}
FIGURES = {
    "Toppings": "1",
    "Scoop & pump": "2",
    "Espresso & steam": "1",
    "Tea & milk": r"180\s+ml",
    "Ice & shake": "1½",
}


def ring_in_bent_taro(page: Page, name: str) -> None:
    """Medium taro milk tea, half sugar, pearls, one extra shot, by touching the words of the sentence."""
    page.get_by_role("navigation", name="Drinks").get_by_role("button", name="Taro Milk Tea").click()
    line = page.get_by_role("region", name="The line")
    line.get_by_role("button", name=re.compile("^Sugar:")).click()
    line.get_by_role("button", name=re.compile("^Half sugar")).click()
    line.get_by_role("button", name=re.compile("^Toppings:")).click()
    line.get_by_role("button", name="Whole pearls").click()
    line.get_by_role("button", name=re.compile("^Extra shots:")).click()
    line.get_by_role("button", name=re.compile("^One extra shot")).click()
    expect(line.get_by_role("button", name="Sugar: half sugar")).to_be_visible()
    line.get_by_role("button", name=re.compile("^Add to order")).click()
    order = page.get_by_role("region", name="The order")
    order.get_by_label("Name for calling").fill(name)
    order.get_by_role("button", name="Ring in", exact=True).click()


def test_from_ring_in_to_a_reviewed_ticket(
    shop: RunningShop, chromium: Browser, listen: Callable[[Page], Page]
) -> None:
    register = listen(chromium.new_page(viewport=REGISTER))
    bar = listen(chromium.new_page(viewport=WALL))
    bar.goto(f"{shop.url}/bar")
    expect(bar.get_by_text("No drinks in the queue")).to_be_visible()
    register.goto(f"{shop.url}/register")
    ring_in_bent_taro(register, "Inês")

    receipt = register.get_by_role("region", name="Receipt")
    expect(receipt.get_by_test_id("receipt-number")).to_have_text("1")
    # 4.80 medium, 0.70 pearls, 0.90 the shot, as the demo book has it; VAT 10 % included: 6.40 / 11 = 0.58.
    expect(receipt).to_contain_text("€6.40")
    expect(receipt).to_contain_text("€0.58")

    row = bar.get_by_role("row", name=re.compile("Medium Taro Milk Tea"))
    for station, words in BUILD.items():
        expect(cell(row, station)).to_have_accessible_name(re.compile(f": to (do|start), {words}$"))
    for station, figure in FIGURES.items():
        expect(cell(row, station)).to_have_text(re.compile(f"^{figure}"), use_inner_text=True)
    expect(row).not_to_contain_text("Water")

    for station in ("Toppings", "Scoop & pump", "Espresso & steam", "Tea & milk", "Ice & shake"):
        work_through(bar, cell(row, station))
    # The demo book has the last touch bump the drink.
    touch(bar, cell(row, "Seal"))
    expect(bar.get_by_role("row", name=re.compile("Taro"))).to_have_count(0)

    board = listen(chromium.new_page(viewport=WALL))
    board.goto(f"{shop.url}/hand-off")
    expect(board.get_by_role("listitem", name="Number 1 ready, Inês")).to_be_visible()
    board.get_by_role("button", name="Number 1 handed off").click()
    expect(board.get_by_role("listitem", name=re.compile("^Number 1 ready"))).to_have_count(0)

    times = listen(chromium.new_page(viewport=REGISTER))
    times.goto(f"{shop.url}/times")
    order = times.get_by_role("row", name=re.compile("Medium Taro Milk Tea"))
    expect(order).to_contain_text("handed off")
    expect(order).to_have_text(re.compile(r"\d:\d\d.*\d:\d\d", re.S))
    order.get_by_role("button", name="Life of number 1").click()
    life = times.get_by_role("list", name="Life of Medium Taro Milk Tea")
    expect(life.get_by_role("listitem").first).to_be_attached()
    for page in (register, bar, board, times):
        page.close()


def cell(row: Locator, station: str) -> Locator:
    """A row's cell of one station, by the name a screen reader says."""
    return row.get_by_role("gridcell", name=re.compile(f"^{station}:"))


def work_through(page: Page, at: Locator) -> None:
    """Touch a cell until it is done: once for what is done by hand, twice where a timer is to run."""
    name = at.locator(".unseen").inner_text()
    if ": to start" in name:
        touch(page, at)
        expect(at).to_have_accessible_name(re.compile(": running, .*(s left|ready)"))
    touch(page, at)
    expect(at).to_have_accessible_name(re.compile(": done"))


def touch(page: Page, at: Locator) -> None:
    """A deliberate touch: the sheet takes one within 300 ms of another for a finger that bounced.

    Nor does it take one on a cell that still waits for its answer, which it shows.
    """
    page.wait_for_function("() => performance.now() - (window.touched ?? -1000) > 350", arg=None)
    expect(page.locator(".cell-pending")).to_have_count(0)
    at.click()
    page.evaluate("() => { window.touched = performance.now(); }")


def test_two_bars_stay_the_same_through_a_cut_connection(
    shop: RunningShop, chromium: Browser, listen: Callable[[Page], Page]
) -> None:
    steady, cut = listen(chromium.new_page(viewport=WALL)), chromium.new_page(viewport=WALL)
    for page in (steady, cut):
        page.goto(f"{shop.url}/bar")
        expect(page.get_by_text("No drinks in the queue")).to_be_visible()
    first = shop.post("/api/orders", {"name": "before", "drinks": [{"line": {"drink": "taro_milk_tea"}}]})
    for page in (steady, cut):
        expect(page.get_by_role("row", name=re.compile("Taro"))).to_have_count(1)

    cut.context.set_offline(True)
    shop.post("/api/orders", {"name": "while cut", "drinks": [{"line": {"drink": "mango_green_tea"}}]})
    shop.post(f"/api/tickets/{first['id']}/bump", {})
    expect(steady.get_by_role("row", name=re.compile("Mango"))).to_have_count(1)
    cut.context.set_offline(False)
    shop.post(
        "/api/orders", {"name": "after", "drinks": [{"line": {"drink": "cocoa_cooler"}, "quantity": 2}]}
    )
    # Two alike cups of one ticket are read as one row.
    expect(cut.get_by_role("row", name=re.compile("2 × Medium Cocoa"))).to_have_count(1)
    expect(steady.get_by_role("row", name=re.compile("2 × Medium Cocoa"))).to_have_count(1)
    assert rows(cut) == rows(steady)
    assert len(rows(steady)) == 2
    for page in (steady, cut):
        page.close()


def test_a_bar_whose_service_was_restarted_goes_on_where_it_was(shop: RunningShop, chromium: Browser) -> None:
    bar = chromium.new_page(viewport=WALL)
    bar.goto(f"{shop.url}/bar")
    shop.post("/api/orders", {"drinks": [{"line": {"drink": "taro_milk_tea"}}]})
    expect(bar.get_by_role("row", name=re.compile("Taro"))).to_have_count(1)
    shop.stop()
    expect(bar.get_by_text(re.compile("seen .* ago|not connected|no connection"))).to_be_visible()
    expect(bar.get_by_role("row", name=re.compile("Taro"))).to_have_count(1)
    shop.start()
    shop.post("/api/orders", {"drinks": [{"line": {"drink": "mango_green_tea"}}]})
    expect(bar.get_by_role("row", name=re.compile("Mango"))).to_have_count(1)
    expect(bar.get_by_role("row", name=re.compile("Taro"))).to_have_count(1)
    bar.close()


def rows(page: Page) -> list[str]:
    """What each row of the sheet is called, which holds number, place and title; and what its cells say."""
    return [
        " | ".join([row.get_attribute("aria-label") or "", *row.get_by_role("gridcell").all_inner_texts()])
        for row in page.get_by_role("row", name=re.compile("^Drink")).all()
    ]
