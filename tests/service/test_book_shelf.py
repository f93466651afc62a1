"""The book while the shop is open: changed, broken, mended, and what that means for queued drinks."""

from __future__ import annotations

import shutil
import threading
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from recipes.asking.lines import complete
from recipes.reading.faults import BookRefused
from recipes.reading.reader import read_book
from service.app.assemble import CannotStart, reopen
from service.books.builds import Builds, line_as_data
from service.books.rung import RungLine
from service.books.shelf import BookShelf, BookWatch
from service.host.settings import DEMO_BOOK
from service.journal.journal import Unavailable
from service.journal.memory import MemoryJournal
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


def test_what_is_written_while_the_service_starts_is_not_missed(shop: Shop, folder: Path) -> None:
    seen = threading.Event()

    def on_change() -> bool:
        seen.set()
        return True

    watch = BookWatch(shop.desk.shelf, on_change, every_s=0.01)
    change(folder)
    watch.start()
    assert seen.wait(10)
    watch.stop()


# --- an upgrade -----------------------------------------------------------------------------------


def test_drinks_rung_in_after_an_upgrade_keep_their_build_though_the_folder_is_refused(
    shop: Shop, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Newer rules make another version of the same files; lines are rung in with that one."""
    before = shop.get("/api/book")["version"]
    break_it(folder)
    monkeypatch.setattr("recipes.reading.reader.RULES", "the next")
    upgraded = Shop(folder, shop.journal)
    assert upgraded.get("/api/menu")["book"] == upgraded.get("/api/queue")["book"] == before
    upgraded.ring_in()
    told = upgraded.get("/api/queue")["builds"]
    again = Shop(folder, shop.journal).get("/api/queue")["builds"]
    assert again == told
    (build,) = again.values()
    assert build["book"] != before
    assert not any("gone" in caution["words"] for caution in build["cautions"])


# --- builds of long ago ---------------------------------------------------------------------------


def rung(shop: Shop) -> RungLine:
    shop.ring_in()
    return shop.desk.fold.state.tickets["1"].drinks[0].rung


def test_a_build_whose_book_is_gone_says_so(shop: Shop) -> None:
    line = replace(rung(shop), book="gone", build="other")
    build = Builds(BookShelf(Path("/nowhere"), MemoryJournal())).of(line)
    assert build.id == "other"
    assert [step.short for step in build.steps] == [work.label for work in line.work]
    assert "gone" in build.cautions[0].words
    assert any("Allergens are not known" in caution.words for caution in build.cautions)


def test_a_build_under_newer_rules_says_so(shop: Shop, folder: Path) -> None:
    line = replace(rung(shop), build="as it was")
    build = Builds(BookShelf(folder, shop.journal)).of(line)
    assert build.id == "as it was"
    assert "newer rules" in build.notes[0].words


@pytest.mark.parametrize(
    ("line", "kept"),
    [
        ({"drink": "x", "size": 7, "colour": "green"}, {"size": ""}),
        ({"size": "large", "sugar": "much", "toppings": ["pearls", {"topping": "jelly", "half": True}]},
         {"drink": DRINK, "size": "large", "sugar": 100, "toppings": [{"topping": "jelly", "half": True}]}),
        ({"without": [1, "creamer"], "milk": ["oat"], "shots": True},
         {"without": ["creamer"], "milk": None, "shots": 0}),
        ([], {"drink": DRINK}),
    ],
)  # fmt: skip
def test_a_line_that_cannot_be_read_is_told_as_far_as_it_can(
    shop: Shop,
    line: Any,  # noqa: ANN401
    kept: dict[str, object],
) -> None:
    build = shop.desk.builds.of(replace(rung(shop), line=line, build="other"))
    assert "could not be worked out again" in build.cautions[0].words
    told = line_as_data(build.line)
    assert {name: told[name] for name in kept} == kept


def test_a_display_is_never_shown_a_stand_in_for_a_book_that_is_only_away(
    shop: Shop, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The other service opened a book and rang in with it, while ours could not fetch it."""
    other = Shop(folder, shop.journal)
    change(folder)
    assert reopen(shop.desk)
    shop.ring_in()

    def away(version: str) -> None:
        raise Unavailable("away")

    monkeypatch.setattr(shop.journal, "files", away)
    with pytest.raises(Unavailable):
        other.desk.fold.catch_up(shop.journal)
    assert other.get("/api/queue")["tickets"] == []
    monkeypatch.undo()
    other.desk.fold.catch_up(shop.journal)
    assert other.get("/api/queue")["builds"] == shop.get("/api/queue")["builds"]


def test_builds_least_lately_asked_for_go_first(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("service.books.builds.KEPT", 2)
    book, builds = shop.desk.book(), Builds(shop.desk.shelf)
    assert book is not None
    lines = [complete(book, DRINK, sugar=sugar) for sugar in (0, 50, 100)]
    first, second = (builds.resolve(book, line) for line in lines[:2])
    assert builds.resolve(book, lines[0]) is first
    builds.resolve(book, lines[2])
    assert builds.resolve(book, lines[0]) is first
    assert builds.resolve(book, lines[1]) is not second


def test_a_book_that_can_no_longer_be_read_counts_as_gone(
    shop: Shop, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    line = rung(shop)

    def refuse(files: object) -> None:
        raise BookRefused([])

    monkeypatch.setattr("service.books.reading.parse_book", refuse)
    assert "gone" in Builds(BookShelf(folder, shop.journal)).of(line).cautions[0].words


def test_a_journal_that_is_away_makes_a_stand_in_for_the_moment(
    shop: Shop, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    line = rung(shop)
    builds = Builds(BookShelf(folder, shop.journal))

    def away(version: str) -> None:
        raise Unavailable("away")

    monkeypatch.setattr(shop.journal, "files", away)
    assert "cannot be fetched" in builds.of(line).cautions[0].words
    monkeypatch.undo()
    assert builds.of(line) == shop.desk.builds.of(line)
