"""The book while the shop is open: changed, broken, mended, and what that means for queued drinks."""

from __future__ import annotations

import shutil
import threading
from dataclasses import replace
from pathlib import Path

import pytest

from recipes.faults import BookRefused
from recipes.reader import read_book
from service.app import CannotStart, reopen
from service.core.bar.events import RungLine
from service.edges.book_shelf import BookShelf, BookWatch
from service.edges.builds import Builds
from service.edges.journal_memory import MemoryJournal
from service.edges.settings import DEMO_BOOK
from service.journal import Unavailable
from tests.service.shop import DRINK, Shop


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return Path(shutil.copytree(DEMO_BOOK, tmp_path / "book"))


@pytest.fixture
def shop(folder: Path) -> Shop:
    return Shop(folder)


def change(folder: Path) -> None:
    """A changed price: the smallest thing that makes another book."""
    shop_file = folder / "shop.toml"
    shop_file.write_text(shop_file.read_text(encoding="utf-8") + "\n# changed\n", encoding="utf-8")


def break_it(folder: Path) -> Path:
    drink = folder / "drinks" / f"{DRINK}.toml"
    drink.write_text(drink.read_text(encoding="utf-8") + "\nspoons = 3\n", encoding="utf-8")
    return drink


def test_a_broken_book_is_told_and_the_last_good_one_serves(shop: Shop, folder: Path) -> None:
    before = shop.get("/api/book")
    good = (folder / "drinks" / f"{DRINK}.toml").read_text(encoding="utf-8")
    drink = break_it(folder)
    assert reopen(shop.desk)
    told = shop.get("/api/book")
    assert told["version"] == before["version"]
    assert told["faults"][0]["file"] == f"drinks/{DRINK}.toml"
    assert told["faults"][0]["line"] > 1
    assert shop.get("/api/menu")["faults"] == told["faults"]
    assert shop.ring_in()["number"] == 1
    drink.write_text(good, encoding="utf-8")
    assert reopen(shop.desk)
    assert shop.get("/api/book") == before


def test_a_changed_book_serves_new_lines_and_leaves_queued_builds_alone(shop: Shop, folder: Path) -> None:
    shop.ring_in()
    before = shop.get("/api/queue")
    change(folder)
    assert reopen(shop.desk)
    shop.ring_in()
    after = shop.get("/api/queue")
    first, second = (ticket["drinks"][0]["build"] for ticket in after["tickets"])
    assert after["book"] != before["book"]
    assert after["builds"][first] == before["builds"][first]
    assert after["builds"][first]["book"] == before["book"]
    assert after["builds"][second]["book"] == after["book"]


def test_queued_builds_are_the_same_after_a_restart_under_another_book(shop: Shop, folder: Path) -> None:
    shop.ring_in()
    before = shop.get("/api/queue")
    change(folder)
    again = Shop(folder, shop.journal)
    after = again.get("/api/queue")
    assert after["builds"] == before["builds"]
    assert after["book"] != before["book"]


def test_a_retry_is_answered_though_its_drink_is_no_longer_on_the_menu(shop: Shop, folder: Path) -> None:
    first = shop.ring_in(key="k")
    (folder / "drinks" / f"{DRINK}.toml").unlink()
    assert reopen(shop.desk)
    assert shop.ring_in(key="k") == first
    body = {"name": "Ana", "drinks": [{"line": {"drink": DRINK}}]}
    assert shop.post("/api/orders", body, 422)["type"] == "/problems/line-refused"
    assert len(shop.get("/api/queue")["tickets"]) == 1


def test_a_book_that_another_process_opened_is_used_here_too(shop: Shop, folder: Path) -> None:
    other = Shop(folder, shop.journal)
    change(folder)
    assert reopen(shop.desk)
    other.desk.fold.catch_up(shop.journal)
    assert other.get("/api/menu")["book"] == shop.get("/api/menu")["book"]


def test_a_broken_folder_at_the_start_is_no_hindrance_while_an_earlier_book_is_kept(
    shop: Shop, folder: Path
) -> None:
    break_it(folder)
    again = Shop(folder, shop.journal)
    assert again.get("/healthz") == {"status": "ok"}
    assert again.get("/api/book")["faults"]
    assert again.ring_in()["number"] == 1


def test_a_broken_folder_at_the_first_start_is_refused(folder: Path) -> None:
    break_it(folder)
    with pytest.raises(CannotStart, match="refused"):
        Shop(folder)


def test_a_change_is_tried_again_while_the_journal_is_away(
    shop: Shop, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def away(*_: object) -> None:
        raise Unavailable("away")

    change(folder)
    monkeypatch.setattr(shop.journal, "keep", away)
    assert not reopen(shop.desk)
    monkeypatch.undo()
    assert reopen(shop.desk)
    assert shop.get("/api/book")["version"] == read_book(folder).version


def test_the_folder_is_watched(folder: Path) -> None:
    calls: list[int] = []
    again = threading.Event()

    def on_change() -> bool:
        calls.append(1)
        if len(calls) == 2:
            again.set()
        return len(calls) == 2

    watch = BookWatch(BookShelf(folder, MemoryJournal()), on_change, every_s=0.01)
    watch.start()
    change(folder)
    assert again.wait(10)
    watch.stop()
    assert len(calls) == 2, "a change that was dealt with is not told again"


# --- builds of long ago ---------------------------------------------------------------------------


def rung(shop: Shop) -> RungLine:
    shop.ring_in()
    return shop.desk.fold.state.tickets["1"].drinks[0].rung


def test_a_build_whose_book_is_gone_says_so(shop: Shop) -> None:
    line = replace(rung(shop), book="gone", build="other")
    build = Builds(BookShelf(Path("/nowhere"), MemoryJournal())).of(line)
    assert build.id == "other"
    assert [step.short for step in build.steps] == [work.label for work in line.work]
    assert "gone" in build.cautions[0]
    assert any("Allergens are not known" in caution for caution in build.cautions)


def test_a_build_under_newer_rules_says_so(shop: Shop, folder: Path) -> None:
    line = replace(rung(shop), build="as it was")
    build = Builds(BookShelf(folder, shop.journal)).of(line)
    assert build.id == "as it was"
    assert "newer rules" in build.notes[0]


def test_a_book_that_can_no_longer_be_read_counts_as_gone(
    shop: Shop, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    line = rung(shop)

    def refuse(files: object) -> None:
        raise BookRefused([])

    monkeypatch.setattr("service.edges.book_shelf.parse_book", refuse)
    assert "gone" in Builds(BookShelf(folder, shop.journal)).of(line).cautions[0]


def test_a_journal_that_is_away_makes_a_stand_in_for_the_moment(
    shop: Shop, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    line = rung(shop)
    builds = Builds(BookShelf(folder, shop.journal))

    def away(version: str) -> None:
        raise Unavailable("away")

    monkeypatch.setattr(shop.journal, "files", away)
    assert "cannot be fetched" in builds.of(line).cautions[0]
    monkeypatch.undo()
    assert builds.of(line) == shop.desk.builds.of(line)
