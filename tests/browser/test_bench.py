"""The owner's bench on the real screens, by keyboard: an edit is tried, saved, proved, sold, rolled back."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from tests.browser.pages import REGISTER, WALL
from tests.proof.books import GOOD, files, write
from tests.running import RunningShop

pytestmark = pytest.mark.browser

Listen = Callable[[Page], Page]

# Worked by hand from the small book: its pump gives 7 ml a stroke, so 14 ml are two strokes and 21 ml three.
# Its syrup has 1.30 g in a millilitre and 60 % of sugars, and is all that is sweet:
# 14 x 1.30 x 0.60 = 10.92 g and 21 x 1.30 x 0.60 = 16.38 g, 5.46 g more.
SUGARS = ("10.9 g", "16.4 g", "+5.5 g")


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """A folder with the small book, which is proved in a second or two."""
    return write(tmp_path / "book", files(iced=GOOD))


@pytest.fixture
def bar(tmp_path: Path, book: Path) -> Iterator[RunningShop]:
    """A shop that runs on it."""
    with RunningShop(tmp_path / "data", BOOK=str(book)) as running:
        yield running


def texts(book: Path) -> dict[str, bytes]:
    """Every file of a book's folder, to the byte."""
    return {str(path.relative_to(book)): path.read_bytes() for path in book.rglob("*.toml")}


def bench(bar: RunningShop, chromium: Browser, listen: Listen) -> Page:
    """The bench with its first trial on it."""
    page = listen(chromium.new_page(viewport=REGISTER))
    page.goto(f"{bar.url}/owner")
    expect(build(page)).to_have_text(re.compile("Pump 2 strokes of syrup"))
    return page


def build(page: Page) -> Locator:
    """The steps of the drink that is tried."""
    return page.get_by_role("region", name="The build").get_by_role("list")


def step(page: Page, words: str) -> Locator:
    """The head of a step: it opens the step's form, and moves it."""
    return page.get_by_role("region", name="Steps").get_by_role("button", name=re.compile(rf"^\d+ {words}"))


def save(page: Page, note: str) -> Locator:
    """Save what is edited with a note, by keyboard; the panel that tells what becomes of it."""
    page.get_by_role("button", name="Save …").press("Enter")
    expect(page.get_by_label("What was changed, and why")).to_be_focused()
    page.keyboard.type(note)
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    return page.get_by_role("dialog", name=re.compile("^Saved: "))


def test_an_edit_is_tried_saved_proved_sold_and_rolled_back(
    bar: RunningShop, book: Path, chromium: Browser, listen: Listen
) -> None:
    before = texts(book)
    page = bench(bar, chromium, listen)

    # Another amount: what it was and what it is stand beside each other.
    step(page, "Pump Syrup 14 ml").press("Enter")
    page.get_by_role("textbox", name="Amount, Small, iced").fill("21 ml")
    sugars = page.get_by_role("row", name=re.compile("^Sugars"))
    expect(sugars.get_by_role("cell")).to_have_text([*SUGARS[:2], re.compile(f"^{re.escape(SUGARS[2])}")])
    expect(build(page).get_by_role("listitem")).to_have_text(
        [
            "Bar",
            re.compile("^Pump 3 strokes of syrup.* was 2 strokes$"),
            re.compile("^Pour 120 ml of cold tea$"),
            re.compile("^Add 3 cubes of ice$"),
            re.compile("seal$"),
        ]
    )

    # Another order: focus stays on the step wherever it goes, and the build follows.
    moved = step(page, "Pump Syrup 21 ml")
    moved.press("Alt+ArrowDown")
    expect(moved).to_have_accessible_name(re.compile("^2 Pump"))
    expect(moved).to_be_focused()
    expect(build(page).get_by_role("listitem").nth(1)).to_have_text(re.compile("^Pour 120 ml of cold tea"))
    expect(build(page).get_by_role("listitem").nth(2)).to_have_text(re.compile("^Pump 3 strokes of syrup"))

    # A price, as the number pad of a Portuguese tablet writes it.
    page.get_by_role("button", name="Prices").press("Enter")
    page.get_by_role("textbox", name="Small").first.fill("3,60")
    expect(page.get_by_role("row", name=re.compile("^Price €3.30 €3.60"))).to_be_visible()
    expect(page.locator("footer")).to_contain_text("3 edits.")

    panel = save(page, "Sweeter, after the tasting")
    expect(panel).to_contain_text("is published")
    page.keyboard.press("Escape")
    expect(page.get_by_role("combobox", name="Prices")).to_be_focused()
    after = (book / "drinks/iced.toml").read_text("utf-8")
    expected = before["drinks/iced.toml"].decode().replace("small = 3.30", "small = 3.60")
    pump = expected[expected.index('[[steps]]\nstation = "bar"\ndo = "pump"') :]
    pump, pour = pump.split("\n\n")[:2]
    assert after == expected.replace(f"{pump}\n\n{pour}", f"{pour}\n\n{pump.replace('14 ml', '21 ml')}")

    sells(bar, chromium, listen, "€3.60", "3 strokes Syrup")

    # Back again: to the byte, and the register follows.
    page.goto(f"{bar.url}/owner/versions")
    expect(page.get_by_role("row", name=re.compile("Sweeter, after the tasting.*open now"))).to_be_visible()
    page.get_by_role("button", name="Roll back").press("Enter")
    expect(page.get_by_role("dialog").get_by_label("Why")).to_be_focused()
    page.keyboard.type("Too sweet for most")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    expect(
        page.get_by_role("row", name=re.compile("rolled back.*Too sweet for most.*open now"))
    ).to_have_count(1)
    assert texts(book) == before
    sells(bar, chromium, listen, "€3.30", "2 strokes Syrup")
    page.close()


def sells(bar: RunningShop, chromium: Browser, listen: Listen, price: str, dose: str) -> None:
    """The register offers the iced tea at a price, and what is rung in comes to the bar with a dose."""
    register, wall = listen(chromium.new_page(viewport=REGISTER)), listen(chromium.new_page(viewport=WALL))
    register.goto(f"{bar.url}/register")
    register.get_by_role("navigation", name="Drinks").get_by_role("button", name="Iced Tea").click()
    add = register.get_by_role("button", name=re.compile("^Add to order"))
    expect(add).to_contain_text(price)
    add.click()
    order = register.get_by_role("region", name="The order")
    order.get_by_role("button", name="Ring in", exact=True).click()
    number = register.get_by_test_id("receipt-number").inner_text()
    wall.goto(f"{bar.url}/bar")
    row = wall.get_by_role("row", name=re.compile(f"Drink.*\\b{number}\\b"))
    expect(row.get_by_role("gridcell", name=re.compile("^Bar:"))).to_have_accessible_name(re.compile(dose))
    for page in (register, wall):
        page.close()


def test_what_fails_its_proof_is_sold_only_by_the_owners_word(
    bar: RunningShop, chromium: Browser, listen: Listen
) -> None:
    page = bench(bar, chromium, listen)
    step(page, "Pour Cold tea").press("Enter")
    page.get_by_role("combobox", name="What", exact=True).select_option(label="Tea")
    page.get_by_text("Instead", exact=True).click()
    page.get_by_role("combobox", name="no ice").select_option(label="Cold tea")
    expect(page.locator("footer")).to_contain_text(re.compile("2 edits. 1 recipe moved"))
    panel = save(page, "Brewed to order")
    expect(panel).to_contain_text("The proof fails")
    expect(panel).to_contain_text("with more ice")
    expect(page.locator("footer")).to_contain_text("its proof fails")

    register = chromium.new_page(viewport=REGISTER)
    register.goto(f"{bar.url}/register")
    register.get_by_role("navigation", name="Drinks").get_by_role("button", name="Iced Tea").click()
    add = register.get_by_role("button", name=re.compile("^Add to order"))
    expect(add).to_contain_text("€3.30")

    word = panel.get_by_role("button", name="Open it by my word")
    expect(word).to_be_disabled()
    panel.get_by_role("checkbox").press("Space")
    word.press("Enter")
    expect(panel).to_contain_text("is open")
    expect(panel.get_by_role("button", name="Close")).to_be_focused()
    expect(register.get_by_text("whose proof fails here")).to_be_visible()
    expect(add).to_be_disabled()
    for each in (page, register):
        each.close()


def test_a_key_that_was_not_written_is_typed_to_its_end_and_goes_into_the_file(
    bar: RunningShop, book: Path, chromium: Browser, listen: Listen
) -> None:
    page = bench(bar, chromium, listen)
    page.get_by_role("button", name="Pantry").press("Enter")
    page.get_by_role("combobox", name="Pantry").select_option(label="Cold tea")
    page.get_by_text(re.compile(r"^\d+ more that can be said$")).press("Enter")
    page.get_by_role("textbox", name="Brand").focus()
    page.keyboard.type("Leaf & Co")
    expect(page.get_by_role("textbox", name="Brand")).to_be_focused()
    expect(page.get_by_role("textbox", name="Brand")).to_have_value("Leaf & Co")
    page.get_by_label("Allergens: – nothing said –").press("Enter")
    for name in ("milk", "soybeans"):
        page.get_by_role("checkbox", name=name, exact=True).press("Space")
        expect(page.get_by_role("checkbox", name=name, exact=True)).to_be_focused()
    expect(page.locator("footer")).to_contain_text("2 edits.")
    expect(save(page, "Another packer")).to_contain_text("is published")
    before, after = files(iced=GOOD)["pantry.toml"], (book / "pantry.toml").read_text("utf-8")
    last = 'serving = "4 °C"\nprice = "1.00 EUR/kg"\n'
    assert before.count(last) == 1
    assert after == before.replace(last, f'{last}brand = "Leaf & Co"\nallergens = ["milk", "soybeans"]\n')
    page.close()


def test_sizes_are_proposed_looked_through_written_and_saved_on_one_line(
    bar: RunningShop, book: Path, chromium: Browser, listen: Listen
) -> None:
    """By keyboard. The large line is 600 ml to the small 300: 14 ml of syrup are four strokes of 7 ml,
    120 ml of tea are 240, three cubes are six.
    """
    before = texts(book)["drinks/iced.toml"].decode()
    page = bench(bar, chromium, listen)
    step(page, "Pour Cold tea 120 ml").press("Enter")
    large = page.get_by_role("textbox", name="Amount, Large, iced")
    expect(large).to_have_value("")
    expect(large).to_have_attribute("placeholder", "240 ml")
    # What is typed is written; emptied, it follows again.
    large.fill("250 ml")
    expect(page.locator("footer")).to_contain_text("1 edit.")
    large.fill("")
    expect(page.locator("footer")).to_contain_text("Nothing is edited.")
    # A fault stands at its cell, and leads there.
    large.fill("2 buckets")
    expect(page.get_by_role("button", name="Iced Tea, step 2, amount, large")).to_be_visible()
    expect(large).to_have_attribute("aria-invalid", "true")
    large.fill("")
    expect(page.locator("footer")).to_contain_text("Nothing is edited.")

    page.get_by_role("button", name="Propose the other sizes …").press("Enter")
    panel = page.get_by_role("dialog", name="Propose the other sizes")
    rows = panel.get_by_role("row")
    expect(rows).to_have_count(4)
    expect(rows.nth(1)).to_contain_text("4 strokes (exact, 5.0 s)")  # 1.25 + 4 x 0.94 s
    expect(rows.nth(2)).to_contain_text("240 ml")
    expect(rows.nth(3)).to_contain_text("6 cubes")
    # One is left as it follows.
    panel.get_by_role("checkbox", name="Write Ice, Large").press("Space")
    panel.get_by_role("button", name="Write 2 amounts").press("Enter")
    expect(panel).to_have_count(0)
    expect(page.locator("footer")).to_contain_text("2 edits.")
    expect(large).to_have_value("240 ml")
    expect(save(page, "Large is written")).to_contain_text("is published")
    after = (book / "drinks/iced.toml").read_text("utf-8")
    assert after == before.replace(
        'amount = "14 ml"', 'amount = { small = "14 ml", large = "4 strokes" }'
    ).replace('amount = "120 ml"', 'amount = { small = "120 ml", large = "240 ml" }')
    page.close()
