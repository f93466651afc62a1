"""What hands do by mistake, and take back; and several alike cups worked side by side."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.pages import WALL
from tests.browser.test_job import cell, touch
from tests.running import RunningShop

pytestmark = pytest.mark.browser

Listen = Callable[[Page], Page]


def order(shop: RunningShop, name: str, *lines: dict[str, Any]) -> str:
    taken = shop.post("/api/orders", {"name": name, "drinks": list(lines)})
    return str(taken["id"])


TARO = {"line": {"drink": "taro_milk_tea"}}
MANGO = {"line": {"drink": "mango_green_tea"}}


def test_a_hand_off_by_mistake_is_taken_back_on_every_screen(
    shop: RunningShop, chromium: Browser, listen: Listen
) -> None:
    ticket = order(shop, "Inês", TARO)
    shop.post(f"/api/tickets/{ticket}/bump", {})
    staff, board, bar = (listen(chromium.new_page(viewport=WALL)) for _ in range(3))
    for page, path in ((staff, "/hand-off"), (board, "/hand-off?board"), (bar, "/bar")):
        page.goto(shop.url + path)
    ready = "Number 1 ready, Inês"
    recall = bar.get_by_role("button", name=re.compile("^Number 1 .*, recall$"))
    for page in (staff, board):
        expect(page.get_by_role("listitem", name=ready)).to_be_visible()
    expect(recall).to_be_visible()

    staff.get_by_role("button", name="Number 1 handed off").click()
    for page in (staff, board):
        expect(page.get_by_role("listitem", name=ready)).to_have_count(0)
    expect(recall).to_have_count(0)

    # Reloaded meanwhile: what was handed off is the shop's to know, not the page's.
    staff.reload()
    touch(staff, staff.get_by_role("button", name="Number 1 Inês, take back"))
    for page in (staff, board):
        expect(page.get_by_role("listitem", name=ready)).to_be_visible()
    touch(bar, recall)
    expect(bar.get_by_role("row", name=re.compile("Medium Taro Milk Tea"))).to_have_count(1)
    for page in (staff, board):
        expect(page.get_by_role("listitem", name=ready)).to_have_count(0)
    for page in (staff, board, bar):
        page.close()


def test_a_cell_touched_by_mistake_is_to_do_again(
    shop: RunningShop, chromium: Browser, listen: Listen
) -> None:
    order(shop, "Ana", TARO)
    bar, station = (listen(chromium.new_page(viewport=WALL)) for _ in range(2))
    bar.goto(f"{shop.url}/bar")
    station.goto(f"{shop.url}/station/scoop")
    scoop = cell(bar.get_by_role("row", name=re.compile("Taro")), "Scoop & pump")
    for again in ("bar", "station"):
        touch(bar, scoop)
        expect(scoop).to_have_accessible_name(re.compile(": done"))
        expect(station.get_by_text("Nothing to do at Scoop & pump.")).to_be_visible()
        if again == "bar":
            touch(bar, scoop)
        else:
            touch(
                station,
                station.get_by_role("button", name=re.compile("^Number 1 .*not done at Scoop & pump$")),
            )
        expect(scoop).to_have_accessible_name(re.compile(": to do"))
        expect(station.get_by_role("button", name=re.compile("^Scoop & pump: to do"))).to_be_visible()
    bar.close()
    station.close()


def test_alike_cups_are_one_row_until_they_are_taken_apart(
    shop: RunningShop, chromium: Browser, listen: Listen
) -> None:
    order(shop, "Ana", {**TARO, "quantity": 3}, MANGO)
    bar = listen(chromium.new_page(viewport=WALL))
    bar.goto(f"{shop.url}/bar")
    three = bar.get_by_role("row", name=re.compile("3 × Medium Taro Milk Tea$"))
    touch(bar, cell(three, "Scoop & pump"))
    expect(cell(three, "Scoop & pump")).to_have_accessible_name(re.compile(": done"))
    steps = [drink["steps"] for drink in shop.get("/api/queue")["tickets"][0]["drinks"][:3]]
    assert steps[0] == steps[1] == steps[2]
    assert {step["state"] for step in steps[0]} == {"done", "todo"}

    cell(three, "Scoop & pump").focus()
    bar.keyboard.press("s")
    single = bar.get_by_role("row", name=re.compile(": Medium Taro Milk Tea$"))
    expect(single).to_have_count(3)
    touch(bar, single.nth(1).get_by_role("button", name=re.compile("^Bump")))
    expect(single).to_have_count(2)
    cell(single.first, "Seal").focus()
    bar.keyboard.press("s")
    expect(bar.get_by_role("row", name=re.compile("2 × Medium Taro Milk Tea$"))).to_have_count(1)
    bar.close()


def test_a_whole_ticket_and_older_drinks_are_recalled_from_the_list(
    shop: RunningShop, chromium: Browser, listen: Listen
) -> None:
    first = order(shop, "Ana", TARO, MANGO)
    others = [order(shop, f"guest {n}", MANGO) for n in range(7)]
    bar = listen(chromium.new_page(viewport=WALL))
    bar.goto(f"{shop.url}/bar")
    expect(bar.get_by_role("row", name=re.compile("Taro"))).to_have_count(1)
    for ticket in (first, *others):
        shop.post(f"/api/tickets/{ticket}/bump", {})
    expect(bar.get_by_text("No drinks in the queue")).to_be_visible()
    bar.get_by_role("button", name="All bumped").click()
    touch(bar, bar.get_by_role("button", name="All 2 of number 1, recall"))
    bar.keyboard.press("Escape")
    expect(bar.get_by_role("row", name=re.compile("number 1:"))).to_have_count(2)
    bar.close()
