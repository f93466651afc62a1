"""``make pictures``: the README's pictures, taken of a demo shop in a seeded rush.

The size of each is the size at which the screen is used.
"""

from __future__ import annotations

import re
import subprocess
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Browser, Page, expect

from tests.browser.pages import PHONE, REGISTER, WALL, Viewport, browser
from tests.browser.test_job import ring_in_bent_taro
from tests.running import RunningShop

FOLDER = Path(__file__).parents[2] / "display" / "pictures"

PROVED_MS = 400_000
"""The whole demo book is proved in the background within this time on a slow machine."""


def main() -> None:
    """Play a worked rush for the times page, a second one for the bar, and take all pictures."""
    FOLDER.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as folder, RunningShop(Path(folder)) as shop, browser() as chromium:
        _rush(shop, "--seed", "4", "--orders", "26", "--minutes", "2", "--hands", "4", "--speed", "6")
        _rush(shop, "--seed", "3", "--orders", "6", "--minutes", "0")
        _register(shop, chromium)
        _bar(shop, chromium)
        for ticket in shop.get("/api/queue")["tickets"][:2]:
            shop.post(f"/api/tickets/{ticket['id']}/bump", {})
        _plain(shop, chromium, "hand-off", "/hand-off", WALL)
        _times(shop, chromium)
        _plain(shop, chromium, "phone", "/bar", PHONE)
        _bench(shop, chromium)
        _proof(shop, chromium)


def _rush(shop: RunningShop, *options: str) -> None:
    print(f"rush {' '.join(options)}", flush=True)
    command = [sys.executable, "-m", "service.cli.main", "rush", "--url", shop.url, *options]
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)


def _open(shop: RunningShop, chromium: Browser, path: str, size: Viewport) -> Page:
    page = chromium.new_page(viewport=size, reduced_motion="reduce", locale="en-IE")
    page.goto(shop.url + path)
    expect(page.get_by_text("live", exact=True)).to_be_visible()
    return page


def _take(page: Page, name: str) -> None:
    page.evaluate("() => document.fonts.ready")
    page.screenshot(path=FOLDER / f"{name}.png")
    print(f"display/pictures/{name}.png", flush=True)
    page.close()


def _plain(shop: RunningShop, chromium: Browser, name: str, path: str, size: Viewport) -> None:
    _take(_open(shop, chromium, path, size), name)


def _register(shop: RunningShop, chromium: Browser) -> None:
    page = _open(shop, chromium, "/register", REGISTER)
    ring_in_bent_taro(page, "Inês")
    page.get_by_role("button", name="Next order").click()
    page.get_by_role("navigation", name="Drinks").get_by_role("button", name="Roasted Oolong").click()
    line = page.get_by_role("region", name="The line")
    line.get_by_role("button", name=re.compile("^Ice:")).click()
    line.get_by_role("button", name=re.compile("^Less ice")).click()
    line.get_by_role("button", name=re.compile("^Add to order")).click()
    page.get_by_role("navigation", name="Drinks").get_by_role("button", name="Mango Green Tea").click()
    line.get_by_role("button", name=re.compile("^Toppings:")).click()
    line.get_by_role("button", name="Half popping pearls").click()
    line.get_by_role("button", name="Whole aloe").click()
    expect(line.get_by_text("Contains", exact=True)).to_be_visible()
    _take(page, "register")


def _bar(shop: RunningShop, chromium: Browser) -> None:
    queue = shop.get("/api/queue")
    started = 0
    for ticket in queue["tickets"]:
        drink = ticket["drinks"][0]
        steps = queue["builds"][drink["build"]]["steps"]
        alone = next((step for step in steps if step["duration"] and not step["duration"]["attended"]), None)
        if alone is None or started == 3:
            continue
        before = [step["number"] for step in steps if step["number"] < alone["number"]]
        shop.post(f"/api/drinks/{drink['id']}/finish", {"steps": before})
        shop.post(f"/api/drinks/{drink['id']}/start", {"step": alone["number"]})
        started += 1
    _take(_open(shop, chromium, "/bar", WALL), "bar")


def _times(shop: RunningShop, chromium: Browser) -> None:
    page = _open(shop, chromium, "/times", REGISTER)
    expect(page.get_by_role("region", name="By hour")).to_be_visible()
    page.screenshot(path=FOLDER / "times.png")
    page.get_by_role("button", name="Life of number 7", exact=True).click()
    expect(page.get_by_role("list", name=re.compile("^Life of")).first).to_be_visible()
    page.locator(".strip").scroll_into_view_if_needed()
    _take(page, "life")


def _bench(shop: RunningShop, chromium: Browser) -> None:
    page = _open(shop, chromium, "/owner", REGISTER)
    page.get_by_role("combobox", name="Drinks").select_option(label="Taro Milk Tea")
    page.get_by_text("Pump Liquid fructose").click()
    page.get_by_role("textbox", name="Amount").fill("5 strokes")
    expect(page.get_by_text("1 recipe moved")).to_be_visible()
    _take(page, "bench")


def _proof(shop: RunningShop, chromium: Browser) -> None:
    page = _open(shop, chromium, "/owner/proof", REGISTER)
    print("waiting for the proof, a minute or two", flush=True)
    expect(page.get_by_text("The proof holds")).to_be_visible(timeout=PROVED_MS)
    _take(page, "proof")


if __name__ == "__main__":
    main()
