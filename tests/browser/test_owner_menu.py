"""What an owner does with the menu as a whole, on the real screens: its order, its prices, one drink more."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from tests.browser.pages import REGISTER
from tests.proof.books import GOOD, files, write
from tests.running import RunningShop

pytestmark = pytest.mark.browser

Listen = Callable[[Page], Page]

DRINKS = {name.lower(): GOOD.replace("Iced Tea", name) for name in ("Apple", "Berry", "Cherry")}


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """The small book with three drinks in two families."""
    texts = files(**DRINKS)
    texts["shop.toml"] += '\n# on the right\n[families.red]\nname = "Red"\n'
    texts["drinks/cherry.toml"] = texts["drinks/cherry.toml"].replace('family = "all"', 'family = "red"')
    return write(tmp_path / "book", texts)


@pytest.fixture
def bar(tmp_path: Path, book: Path) -> Iterator[RunningShop]:
    with RunningShop(tmp_path / "data", BOOK=str(book)) as running:
        yield running


@pytest.fixture
def page(bar: RunningShop, chromium: Browser, listen: Listen) -> Iterator[Page]:
    """The bench with its first trial on it."""
    opened = listen(chromium.new_page(viewport=REGISTER))
    opened.goto(f"{bar.url}/owner")
    expect(opened.get_by_role("region", name="The build")).to_be_visible()
    yield opened
    opened.close()


def names(listed: Locator) -> list[str]:
    """What stands in an order, without its numbers."""
    return [re.sub(r"^\d+\s*", "", text) for text in listed.locator(".order-name").all_inner_texts()]


def test_the_menus_order_is_moved_by_key_and_by_touch_and_the_register_has_it(
    bar: RunningShop, book: Path, page: Page
) -> None:
    page.get_by_role("button", name="Shop", exact=True).press("Enter")
    headings = page.get_by_role("list", name="Headings on the register")
    red = headings.get_by_role("button", name="Red").first
    expect(red).to_have_text(re.compile(r"^2\s*Red$"))
    red.press("Alt+ArrowUp")
    expect(red).to_be_focused()
    expect(red).to_have_text(re.compile(r"^1\s*Red$"))

    page.locator("summary", has_text=re.compile("^All$")).click()
    drinks = page.get_by_role("list", name="All", exact=True)
    down = drinks.get_by_role("button", name="Move down: Apple")
    down.click()
    expect(down).to_be_focused()
    assert (names(headings), names(drinks)) == (["Red", "All"], ["Berry", "Apple"])
    footer = page.locator("footer")
    expect(footer).to_contain_text("2 edits. No recipe moves")

    page.get_by_role("button", name="Save …").click()
    dialog = page.get_by_role("dialog", name="Save as a new version")
    dialog.get_by_role("button", name="Save and prove").click()
    expect(dialog.get_by_role("alert")).to_contain_text("Write a few words")
    note = dialog.get_by_role("textbox")
    expect(note).to_be_focused()
    note.fill("Red sells best")
    dialog.get_by_role("button", name="Save and prove").click()
    expect(page.get_by_role("dialog", name=re.compile("^Saved: "))).to_contain_text("is published")
    text = (book / "shop.toml").read_text("utf-8")
    assert text.endswith(
        '# on the right\n[families.red]\nname = "Red"\n\n'
        '[families.all]\nname = "All"\ndrinks = ["berry", "apple"]\n'
    )
    menu = bar.get("/api/menu")
    assert [family["id"] for family in menu["families"]] == ["red", "all"]
    assert [drink["id"] for drink in menu["drinks"]] == ["cherry", "berry", "apple"]


def test_a_price_is_told_from_what_to_what_and_all_are_raised(page: Page) -> None:
    """3.30 and 5 % are 3.465, 4.40 and 5 % are 4.62: to 0.10 they are 3.50 and 4.60."""
    page.get_by_role("button", name="Prices").click()
    small = page.get_by_role("textbox", name="Small").first
    small.fill("3,60")
    expect(page.locator("footer")).to_contain_text("1 edit. 1 price changed: Apple, Small, €3.30 → €3.60.")
    boxes = [
        box.bounding_box() for box in page.get_by_role("group", name="Apple").get_by_role("textbox").all()
    ]
    assert len({box["y"] for box in boxes if box}) == 1, "the edited box stands level with its neighbour"
    small.fill("3.30")
    every = page.get_by_role("form", name="All of these prices at once")
    every.get_by_role("button", name="Change all").click()
    expect(every.get_by_role("alert")).to_contain_text("from −50 to 50")
    every.get_by_role("textbox").fill("5")
    every.get_by_role("button", name="Change all").click()
    expect(page.locator("footer")).to_contain_text("6 edits. 6 prices changed.")
    told = page.get_by_role("region", name="Prices that change").get_by_role("listitem")
    expect(told.nth(0)).to_have_text(re.compile(r"^Apple, Small\s+€3\.30\s+→\s+€3\.50$"))
    expect(told.nth(1)).to_have_text(re.compile(r"^Apple, Large\s+€4\.40\s+→\s+€4\.60$"))


def test_another_drink_asks_for_a_name_only(page: Page) -> None:
    page.get_by_role("button", name="Another like this …").click()
    dialog = page.get_by_role("dialog", name="Another like Apple")
    name = dialog.get_by_role("textbox", name="Its name")
    expect(name).to_be_focused()
    assert dialog.get_by_role("textbox").count() == 1, "what the files call it is shown to who opens it"
    name.fill("Berry")
    expect(dialog.get_by_role("alert")).to_contain_text("There is a drink called Berry already")
    name.fill("Crème brûlée")
    expect(dialog.get_by_text("What the book’s files call it: creme_brulee")).to_be_visible()
    name.press("Enter")
    expect(page.get_by_role("combobox", name="Drinks")).to_have_value("drinks/creme_brulee.toml")
    expect(page.locator("footer")).to_contain_text("1 edit.")


def test_a_version_that_was_rolled_back_to_keeps_its_row(bar: RunningShop, page: Page) -> None:
    first = bar.get("/api/owner/book")["version"]
    edits = [{"file": "drinks/apple.toml", "path": ["prices", "small"], "value": "3.60"}]
    bar.post("/api/owner/save", {"edits": edits, "note": "dearer", "base_version": first})
    bar.post("/api/owner/roll-back", {"version": first, "note": "too dear"})
    page.goto(f"{bar.url}/owner/versions")
    rows = page.locator("tbody tr")
    expect(rows).to_have_count(3)
    expect(rows.nth(0)).to_contain_text("too dear")
    expect(rows.nth(0)).to_contain_text("open now")
    expect(rows.nth(1)).to_contain_text("dearer")
    expect(rows.nth(2)).to_contain_text("earlier")
