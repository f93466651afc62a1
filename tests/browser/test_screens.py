"""The screens of the floor as people stand before them: fitted, by keys, at a station, at the board."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from tests.browser.pages import REGISTER, WALL
from tests.browser.test_floor import MANGO, TARO, order
from tests.browser.test_job import touch
from tests.recipes.cases import DEMO
from tests.running import RunningShop

pytestmark = pytest.mark.browser

Listen = Callable[[Page], Page]
Stop = Callable[[str], None]


@pytest.fixture
def by_hand(tmp_path: Path) -> Iterator[RunningShop]:
    """A shop whose book has every drink bumped by hand."""
    book = tmp_path / "book"
    shutil.copytree(DEMO, book)
    told = (book / "shop.toml").read_text("utf-8")
    assert 'bump = "last touch"' in told
    (book / "shop.toml").write_text(told.replace('bump = "last touch"', 'bump = "by hand"'), "utf-8")
    with RunningShop(tmp_path / "data", BOOK=str(book)) as running:
        yield running


def drinks(shop: RunningShop) -> list[tuple[dict[str, Any], dict[str, Any]]]:
    """Every cup of the queue with its build."""
    queue = shop.get("/api/queue")
    return [(cup, queue["builds"][cup["build"]]) for ticket in queue["tickets"] for cup in ticket["drinks"]]


def work(shop: RunningShop, which: int, *stations: str) -> None:
    """All that a cup of the queue has to have done at these stations is done, somewhere else."""
    cup, build = drinks(shop)[which]
    steps = [step["number"] for step in build["steps"] if step["station"] in stations]
    shop.post(f"/api/drinks/{cup['id']}/finish", {"steps": steps})


def row(page: Page, name: str) -> Locator:
    return page.get_by_role("row", name=re.compile(name))


def high(row: Locator) -> float:
    box = row.bounding_box()
    assert box is not None
    return box["height"]


# --- the bar sheet --------------------------------------------------------------------------------


def test_rows_shrink_at_once_when_a_screen_is_fitted_or_turned(
    shop: RunningShop, chromium: Browser, listen: Listen
) -> None:
    order(shop, "Ana", TARO, MANGO)
    bar = listen(chromium.new_page(viewport=WALL))
    bar.goto(f"{shop.url}/bar")
    taro = row(bar, "Taro")
    before = high(taro)
    bar.get_by_role("button", name="Fit this screen").click()
    bar.get_by_label("Diagonal, inches").fill("55")
    bar.get_by_role("button", name="Fit", exact=True).click()
    bar.keyboard.press("Escape")
    bar.wait_for_function(
        "was => document.querySelector('[data-drink]').getBoundingClientRect().height < was * 0.75",
        arg=before,
    )
    # On a narrower screen the same words take more lines; on the wide one again no more than before.
    fitted = high(taro)
    bar.set_viewport_size({"width": 1000, "height": 1080})
    bar.wait_for_function(
        "was => document.querySelector('[data-drink]').getBoundingClientRect().height > was * 1.2", arg=fitted
    )
    bar.set_viewport_size(WALL)
    bar.wait_for_function(
        "was => Math.abs(document.querySelector('[data-drink]').getBoundingClientRect().height - was) < 2",
        arg=fitted,
    )
    bar.close()


def test_a_bump_bar_works_from_the_first_moment_and_after_whatever_takes_the_focus(
    shop: RunningShop, chromium: Browser, listen: Listen
) -> None:
    for n in range(5):
        order(shop, f"guest {n}", MANGO if n % 2 else TARO)
    bar = listen(chromium.new_page(viewport=WALL))
    bar.goto(f"{shop.url}/bar")
    rows = bar.get_by_role("row", name=re.compile("^Drink "))
    expect(rows).to_have_count(5)
    expect(bar.get_by_role("gridcell").first).to_be_focused()
    expect(bar.get_by_text("recall last")).to_have_count(0)
    press(bar, "b")
    expect(rows).to_have_count(4)
    expect(bar.get_by_text("recall last")).to_be_visible()

    bar.reload()
    expect(rows).to_have_count(4)
    expect(bar.get_by_role("gridcell").first).to_be_focused()
    press(bar, "2")
    press(bar, "b")
    expect(row(bar, "number 3:")).to_have_count(0)

    # After each of these a finger has been somewhere else.
    bar.get_by_role("button", name="Fit this screen").click()
    bar.get_by_role("button", name="Close").click()
    press(bar, "r")
    expect(row(bar, "number 3:")).to_have_count(1)
    bar.get_by_role("button", name=re.compile("^sound")).click()
    press(bar, "b")
    expect(rows).to_have_count(3)
    touch(bar, bar.get_by_role("button", name=re.compile(", recall$")).first)
    expect(rows).to_have_count(4)
    press(bar, "l")
    expect(bar.get_by_role("dialog", name="Recall")).to_be_visible()
    bar.keyboard.press("Escape")
    for left in (3, 2, 1):
        press(bar, "b")
        expect(rows).to_have_count(left)
    press(bar, "b")
    expect(bar.get_by_text("No drinks in the queue")).to_be_visible()
    # The last bump took the sheet with it; it is recalled all the same.
    press(bar, "r")
    expect(rows).to_have_count(1)
    bar.close()


def press(page: Page, key: str) -> None:
    """A deliberate key: the sheet takes one within 300 ms of another for a finger that bounced."""
    page.wait_for_function("() => performance.now() - (window.touched ?? -1000) > 350", arg=None)
    page.wait_for_function("() => document.activeElement !== document.body", arg=None)
    page.keyboard.press(key)
    page.evaluate("() => { window.touched = performance.now(); }")


def test_by_hand_a_drink_done_everywhere_says_so_and_is_bumped_at_either_screen(
    by_hand: RunningShop, chromium: Browser, listen: Listen
) -> None:
    order(by_hand, "Ana", MANGO)
    order(by_hand, "Bo", MANGO)
    bar, seal = (listen(chromium.new_page(viewport=WALL)) for _ in range(2))
    bar.goto(f"{by_hand.url}/bar")
    seal.goto(f"{by_hand.url}/station/seal")
    expect(bar.get_by_role("button", name="Bump Medium Mango Green Tea of number 1")).to_be_visible()
    every = ("toppings", "scoop", "espresso", "tea", "shake", "seal")
    for which in (0, 1):
        work(by_hand, which, *every)
    done = {
        number: page.get_by_role("button", name=f"Done, bump Medium Mango Green Tea of number {number}")
        for number, page in ((1, bar), (2, seal))
    }
    expect(done[1]).to_contain_text("done")
    touch(bar, done[1])
    expect(done[1]).to_have_count(0)
    expect(seal.get_by_role("button", name=re.compile("^Done, bump"))).to_have_count(1)
    # The rows of the station have just moved: a touch counts once a finger could have seen that.
    seal.evaluate("() => { window.touched = performance.now(); }")
    touch(seal, done[2])
    expect(done[2]).to_have_count(0)
    assert [ticket["state"] for ticket in by_hand.get("/api/queue")["tickets"]] == ["ready", "ready"]
    for page in (bar, seal):
        page.close()


def test_alike_drinks_of_different_tickets_are_marked_as_the_same(
    shop: RunningShop, chromium: Browser, listen: Listen
) -> None:
    for name in ("Ana", "Bo", "Cleo"):
        order(shop, name, TARO, {"line": {"drink": "mango_green_tea", "sugar": 50 if name == "Bo" else 100}})
    bar = listen(chromium.new_page(viewport=WALL))
    bar.goto(f"{shop.url}/bar")
    head = bar.get_by_role("gridcell", name=re.compile("^Medium Taro Milk Tea"))
    expect(head.nth(0)).to_have_accessible_name(re.compile("Same as 2, 3"))
    expect(head.nth(1)).to_have_accessible_name(re.compile("Same as 1, 3"))
    expect(head.nth(0)).to_contain_text(re.compile(r"A\s*same as 2, 3"))
    mango = bar.get_by_role("gridcell", name=re.compile("^Medium Mango Green Tea"))
    expect(mango.nth(0)).to_contain_text(re.compile(r"B\s*same as 3"))
    expect(mango.nth(1)).not_to_have_accessible_name(re.compile("Same as"))
    shop.post("/api/tickets/1/bump", {})
    expect(head.nth(0)).to_have_accessible_name(re.compile("Same as 3"))
    shop.post("/api/tickets/2/bump", {})
    expect(head).to_have_count(1)
    expect(head).not_to_have_accessible_name(re.compile("Same as"))
    bar.close()


# --- stations -------------------------------------------------------------------------------------


def touch_until(page: Page, at: Locator, seen: Callable[[], None]) -> None:
    """Touch, and again where the touch fell in the moment in which rows moved: a screen drops such a one."""
    for _ in range(4):
        touch(page, at)
        with suppress(AssertionError):
            return seen()
    touch(page, at)
    return seen()


def test_a_station_has_what_is_here_first_and_asks_before_a_cup_that_is_not(
    shop: RunningShop, chromium: Browser, listen: Listen
) -> None:
    order(shop, "Ana", TARO)
    order(shop, "Bo", MANGO)
    work(shop, 1, "scoop", "tea")
    shake = listen(chromium.new_page(viewport=REGISTER))
    shake.goto(f"{shop.url}/station/shake")
    tasks = shake.get_by_role("main").get_by_role("listitem")
    expect(tasks.nth(0)).to_contain_text("Mango Green Tea")
    expect(tasks.nth(1)).to_contain_text(re.compile("Taro Milk Tea.*from Scoop & pump"))
    expect(shake.get_by_role("heading", name="Ice & shake 1 here, 1 on the way")).to_be_visible()

    away = tasks.nth(1).get_by_role("button", name=re.compile("Ice & shake"))
    running = shake.get_by_role("button", name=re.compile("^Ice & shake: running"))
    asks = re.compile("^Still at Scoop & pump. Touch again if the cup is here")
    touch_until(shake, away, lambda: expect(away).to_have_accessible_name(asks, timeout=4_000))
    assert {step["state"] for step in drinks(shop)[0][0]["steps"]} == {"todo"}
    touch_until(shake, away, lambda: expect(running).to_have_count(1, timeout=4_000))

    # Once it is here a touch is enough, and what runs has come to its place in the queue.
    waiting = shake.get_by_role("button", name=re.compile("^Ice & shake: to start"))
    touch_until(shake, waiting, lambda: expect(running).to_have_count(2, timeout=4_000))
    shake.close()


def test_stations_alone_bring_a_number_to_the_hand_off_and_back(
    shop: RunningShop, chromium: Browser, listen: Listen
) -> None:
    order(shop, "Inês", MANGO)
    work(shop, 0, "toppings", "scoop", "espresso", "tea", "shake")
    seals = [listen(chromium.new_page(viewport=REGISTER)) for _ in range(2)]
    for seal in seals:
        seal.goto(f"{shop.url}/station/seal")
        expect(seal.get_by_role("button", name=re.compile("^Seal: to do"))).to_be_visible()
    touch(seals[0], seals[0].get_by_role("button", name=re.compile("^Seal: to do")))
    for seal in seals:
        expect(seal.get_by_text("Nothing to do at Seal.")).to_be_visible()
    (ticket,) = shop.get("/api/queue")["tickets"]
    assert ticket["state"] == "ready"

    recall = seals[1].get_by_role("button", name="Number 1 Medium Mango Green Tea, recall")
    touch(seals[1], recall)
    for seal in seals:
        expect(seal.get_by_role("button", name=re.compile("^Seal: to do"))).to_be_visible()
    for seal in seals:
        seal.close()


# --- hand-off and the customers' board ------------------------------------------------------------


def test_the_hand_off_tells_in_words_what_is_in_the_bag(
    shop: RunningShop, chromium: Browser, listen: Listen
) -> None:
    half = {"line": {"drink": "taro_milk_tea", "sugar": 50}, "quantity": 2}
    order(shop, "Inês", half, {**MANGO, "note": "no straw"})
    shop.post("/api/tickets/1/bump", {})
    hand_off = listen(chromium.new_page(viewport=REGISTER))
    hand_off.goto(f"{shop.url}/hand-off")
    card = hand_off.get_by_role("listitem", name="Number 1 ready, Inês")
    bag = card.get_by_role("listitem")
    expect(bag).to_have_text(
        [re.compile(r"^2 × Medium Taro Milk Tea half\s+sugar$"), re.compile("Mango.*“no straw”")]
    )
    hand_off.close()


def test_the_board_shows_who_is_newly_ready_first_and_turns_its_pages(
    shop: RunningShop, chromium: Browser, listen: Listen
) -> None:
    for n in range(1, 15):
        order(shop, f"guest {n}", MANGO)
        shop.post(f"/api/tickets/{n}/bump", {})
    board = listen(chromium.new_page(viewport=WALL, reduced_motion="reduce"))
    # Read from further off, fewer find room on a page.
    board.add_init_script("localStorage.setItem('levelscoop.panel', '{\"inches\":32,\"metres\":2.5}')")
    board.clock.install()
    board.goto(f"{shop.url}/hand-off?board")
    mark = board.get_by_role("button", name=re.compile("^page 1 of "))
    expect(mark).to_be_visible()
    pages = int((mark.get_attribute("aria-label") or "").split(" ")[3].rstrip(","))
    assert pages > 1
    seen: list[int] = []
    for page in range(1, pages + 1):
        expect(board.get_by_role("button", name=f"page {page} of {pages}, hold")).to_be_visible()
        seen += shown(board)
        for number in board.locator(".ready").all():
            expect(number).to_be_in_viewport(ratio=1)
        board.clock.run_for(8000)
    assert seen == list(range(14, 0, -1))
    expect(mark).to_be_visible()

    # Held by hand it stands; whoever is newly ready is seen at once.
    board.clock.run_for(8000)
    second = board.get_by_role("button", name=f"page 2 of {pages}, hold")
    second.click()
    expect(board.get_by_text("held")).to_be_visible()
    board.get_by_role("button", name=f"page 1 of {pages}, hold").click()
    board.clock.run_for(8000)
    expect(second).to_be_visible()
    order(shop, "last", MANGO)
    shop.post("/api/tickets/15/bump", {})
    expect(board.get_by_role("listitem", name="Number 15 ready, last")).to_be_visible()
    board.close()


def shown(board: Page) -> list[int]:
    return [int(text) for text in board.locator(".ready .board-number").all_inner_texts()]


def test_a_number_leaves_the_board_in_time_and_never_the_hand_off(
    shop: RunningShop, chromium: Browser, listen: Listen
) -> None:
    order(shop, "Ana", MANGO)
    shop.post("/api/tickets/1/bump", {})
    board, hand_off = (listen(chromium.new_page(viewport=REGISTER)) for _ in range(2))
    for page, path in ((board, "/hand-off?board"), (hand_off, "/hand-off")):
        page.clock.install()
        page.goto(shop.url + path)
        expect(page.get_by_role("listitem", name="Number 1 ready, Ana")).to_be_visible()
    # The demo book keeps a number there for ten minutes.
    for page in (board, hand_off):
        page.clock.fast_forward(10 * 60 * 1000 - 20_000)
        expect(page.get_by_role("listitem", name="Number 1 ready, Ana")).to_be_visible()
        page.clock.fast_forward(30_000)
    expect(board.get_by_text("Your number appears here.")).to_be_visible()
    expect(hand_off.get_by_role("listitem", name="Number 1 ready, Ana")).to_contain_text("off the board")
    for page in (board, hand_off):
        page.close()


def test_customers_are_told_nothing_of_links(shop: RunningShop, chromium: Browser) -> None:
    order(shop, "Ana", MANGO)
    shop.post("/api/tickets/1/bump", {})
    board = chromium.new_page(viewport=WALL)
    board.goto(f"{shop.url}/hand-off?board")
    expect(board.get_by_role("listitem", name="Number 1 ready, Ana")).to_be_visible()
    before = board.locator("body").inner_text()
    shop.stop()
    expect(board.locator(".board-old")).to_be_visible()
    assert board.locator("body").inner_text() == before
    board.close()


# --- what is seen is what it is called --------------------------------------------------------------

NAMES_THAT_LACK_WHAT_IS_SEEN = """() => {
  const plain = text => text.toLowerCase().replace(/[^\\p{L}\\p{N}]+/gu, " ").trim();
  const controls = "button, a, [role=gridcell]";
  const named = [...document.querySelectorAll(controls)].filter(one => one.hasAttribute("aria-label"));
  return named.flatMap(one => {
    const label = plain(one.getAttribute("aria-label")), seen = plain(one.innerText);
    return (" " + label + " ").includes(" " + seen + " ") ? [] : [`${seen} / ${label}`];
  });
}"""


def test_every_control_s_name_holds_the_words_that_are_seen_on_it(
    shop: RunningShop, chromium: Browser, listen: Listen
) -> None:
    """WCAG 2.2, 2.5.3 Label in Name: who speaks to a screen says what stands on it."""
    order(shop, "Ana Maria Lindqvist", {**TARO, "quantity": 2}, MANGO)
    order(shop, "Bo", TARO, MANGO)
    order(shop, "Cleo", MANGO)
    for number in (2, 3):
        shop.post(f"/api/tickets/{number}/bump", {})
    shop.post("/api/tickets/3/hand-off", {})
    for which in (0, 1):
        work(shop, which, "scoop")
    page = listen(chromium.new_page(viewport=WALL))
    seen = {
        "/bar": "Bump 2",
        "/station/scoop": "not done",
        "/station/shake": "from Tea & milk",
        "/station/seal": "recall",
        "/hand-off": "take back",
        "/hand-off?board": "Bo",
    }
    for path, words in seen.items():
        page.goto(shop.url + path)
        expect(page.get_by_text(words).first).to_be_visible()
        assert page.evaluate(NAMES_THAT_LACK_WHAT_IS_SEEN) == [], path
    page.goto(f"{shop.url}/bar")
    page.get_by_role("button", name="All bumped").click()
    expect(page.get_by_role("dialog", name="Recall")).to_be_visible()
    assert page.evaluate(NAMES_THAT_LACK_WHAT_IS_SEEN) == []
    page.close()
