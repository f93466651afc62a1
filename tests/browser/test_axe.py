"""Every page, in a state in which it is used, held against WCAG 2.2 AA by axe-core's rules.

The rules are those of axe-core as it is published, its best practices included, and its experimental rule for
2.5.3 (a name has the words that are seen). One shop and one browser for all pages.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.pages import REGISTER, WALL, Viewport
from tests.running import RunningShop

pytestmark = pytest.mark.browser

AXE = Path(__file__).parents[2] / "display" / "node_modules" / "axe-core" / "axe.min.js"

TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]

RUN = """async (tags) => {
  const found = await axe.run(document, {
    runOnly: { type: "tag", values: tags },
    rules: { "label-content-name-mismatch": { enabled: true } },
    resultTypes: ["violations"],
  });
  return {
    rules: found.passes.length,
    violations: found.violations.flatMap((rule) => rule.nodes.map((node) =>
      `${rule.id} (${rule.impact}) at ${node.target.join(" ")}: ${node.html.slice(0, 160)}`)),
  };
}"""

TARO, MANGO, COCOA = (
    {"line": {"drink": drink}} for drink in ("taro_milk_tea", "mango_green_tea", "hot_cocoa")
)

FIRST_PROVED_MS = 120_000
"""One drink of the demo book is proved within this time on a slow machine."""

Prepare = Callable[[Page], None]


@pytest.fixture(scope="module")
def bar(tmp_path_factory: pytest.TempPathFactory) -> Iterator[RunningShop]:
    """The demo shop in a rush: drinks waiting, begun, ready on a full board, handed off; a proof at work."""
    with RunningShop(tmp_path_factory.mktemp("axe")) as shop:
        for number in range(30):
            drinks = [{**TARO, "quantity": 2}, MANGO] if number % 3 else [COCOA]
            ticket = shop.post("/api/orders", {"name": f"Ana {number}", "drinks": drinks})["id"]
            if number < 24:
                shop.post(f"/api/tickets/{ticket}/bump", {})
            if number == 0:
                shop.post(f"/api/tickets/{ticket}/hand-off", {})
        first, second = shop.get("/api/queue")["tickets"][-2:]
        shop.post(f"/api/drinks/{first['drinks'][0]['id']}/finish", {"steps": [1]})
        shop.post(f"/api/drinks/{second['drinks'][0]['id']}/finish", {"steps": [1, 2]})
        shop.post("/api/owner/proof", {})
        yield shop


def plain(page: Page) -> None:
    """Nothing to do: the page as it comes, once it follows the shop."""
    expect(page.get_by_text("live", exact=True).first).to_be_attached()


def board(page: Page) -> None:
    """The customers' board, which is full."""
    expect(page.get_by_role("listitem", name=re.compile("^Number 24 ready"))).to_be_attached()


def in_an_order(page: Page) -> None:
    """A line in the order, another drink open at its toppings."""
    drinks = page.get_by_role("navigation", name="Drinks")
    drinks.get_by_role("button", name="Taro Milk Tea").first.click()
    page.get_by_role("button", name=re.compile("^Add to order")).click()
    drinks.get_by_role("button", name="Mango Green Tea").first.click()
    page.get_by_role("button", name=re.compile("^Toppings:")).click()
    expect(page.get_by_role("region", name="The order")).to_contain_text("Taro Milk Tea")


def with_life(page: Page) -> None:
    """One ticket's life beside the times of the day."""
    page.get_by_role("button", name="Life of number 1", exact=True).click()
    expect(page.get_by_role("list", name=re.compile("^Life of")).first).to_be_visible()


def edited(page: Page) -> None:
    """An amount and a price edited, a step open, and what moves told."""
    page.get_by_role("combobox", name="Drinks").select_option(label="Taro Milk Tea")
    page.get_by_role("button", name=re.compile(r"^\d+ Pump Liquid fructose")).click()
    page.get_by_role("textbox", name="Amount").first.fill("21 ml")
    expect(page.get_by_text(re.compile("1 recipe moved"))).to_be_visible()


def priced(page: Page) -> None:
    """All prices raised, what changed told."""
    page.get_by_role("button", name="Prices").click()
    page.get_by_role("textbox", name="All by, in %").fill("5")
    page.get_by_role("button", name="Change all").click()
    expect(page.get_by_text(re.compile(r"^\d+ prices changed$"))).to_be_visible()


def another(page: Page) -> None:
    """The panel of another drink, refused for want of a name."""
    page.get_by_role("button", name="Another like this …").click()
    page.get_by_role("button", name="Make it").click()
    expect(page.get_by_role("alert").filter(has_text="It needs a name")).to_be_visible()


def ordered(page: Page) -> None:
    """The order of the menu, a heading moved."""
    page.get_by_role("button", name="Shop", exact=True).click()
    page.get_by_role("button", name="Move down: Powder milk teas").click()
    expect(page.locator("footer")).to_contain_text("1 edit.")


def shop_forms(page: Page) -> None:
    """The form of a station."""
    page.get_by_role("button", name="Shop", exact=True).click()
    page.get_by_role("combobox", name="Shop").select_option(label="Scoop & pump")
    expect(page.get_by_role("textbox", name="Name")).to_have_value("Scoop & pump")


def proved(page: Page) -> None:
    """The proof with its first drinks in the map."""
    expect(page.locator(".heat-map tbody tr").first).to_be_visible(timeout=FIRST_PROVED_MS)


def weighed(page: Page) -> None:
    """Where a measure is weighed."""
    expect(page.get_by_role("heading", level=1)).to_be_visible()


def listed(page: Page) -> None:
    """The versions of the book."""
    expect(page.get_by_role("table")).to_be_visible()


def learning(page: Page) -> None:
    """A drink to be built by a new hand."""
    expect(page.get_by_role("heading", level=1)).to_be_visible()


@dataclass(frozen=True)
class State:
    """A page in a state; ``name`` tells it apart where a page has several."""

    path: str
    size: Viewport
    prepare: Prepare = plain
    name: str = ""


STATIONS = ("toppings", "scoop", "espresso", "tea", "shake", "seal")

STATES = [
    State("/", REGISTER),
    State("/no-such-page", REGISTER),
    State("/register", REGISTER),
    State("/register", REGISTER, in_an_order, "in an order"),
    State("/bar", WALL),
    State("/station", WALL),
    *(State(f"/station/{station}", WALL) for station in STATIONS),
    State("/hand-off", WALL),
    State("/hand-off?board", WALL, board),
    State("/times", REGISTER),
    State("/times", REGISTER, with_life, "with a life"),
    State("/owner", REGISTER),
    State("/owner", REGISTER, edited, "edited"),
    State("/owner", REGISTER, priced, "prices"),
    State("/owner", REGISTER, another, "another drink"),
    State("/owner", REGISTER, ordered, "order of the menu"),
    State("/owner", REGISTER, shop_forms, "station"),
    State("/owner/brand", REGISTER, weighed),
    State("/owner/measure", REGISTER, weighed),
    State("/owner/proof", REGISTER, proved),
    State("/owner/versions", REGISTER, listed),
    State("/owner/training", REGISTER, weighed),
    State("/learn", REGISTER, learning),
]


def test_the_stations_are_those_of_the_shop(bar: RunningShop) -> None:
    assert tuple(station["id"] for station in bar.get("/api/menu")["stations"]) == STATIONS


@pytest.mark.parametrize("state", STATES, ids=lambda state: f"{state.path} {state.name}".strip())
def test_a_page_breaks_no_rule(bar: RunningShop, chromium: Browser, state: State) -> None:
    # Without motion nothing is faded in while it is judged.
    context = chromium.new_context(viewport=state.size, reduced_motion="reduce", locale="en-IE")
    try:
        page = context.new_page()
        page.goto(bar.url + state.path)
        state.prepare(page)
        page.evaluate("() => document.fonts.ready")
        page.evaluate(AXE.read_text("utf-8"))
        found = page.evaluate(RUN, TAGS)
        assert found["rules"] > 10, "axe-core has judged the page"
        assert found["violations"] == []
    finally:
        context.close()
