"""A snapshot of the fold is a short cut: with it or without, a start comes to the same, and it is never
trusted further than it fits."""

from __future__ import annotations

import logging
import threading
from collections.abc import Callable
from pathlib import Path

import pytest

from service.app.assemble import open_desk
from service.journal.journal import Envelope
from service.journal.keeper import Keeper
from service.journal.memory import MemoryJournal
from service.journal.snapshot import Snapshots
from service.orders.state import State
from tests.service.samples import DAY
from tests.service.shop import Shop


class Counted(MemoryJournal):
    """Counts what is read of it."""

    def __init__(self) -> None:
        super().__init__()
        self.reads: list[int] = []

    def read(self, after: int, limit: int) -> list[Envelope]:
        found = super().read(after, limit)
        self.reads += [envelope.position for envelope in found]
        return found


@pytest.fixture
def journal() -> Counted:
    return Counted()


@pytest.fixture
def place(tmp_path: Path) -> Path:
    return tmp_path / "snapshots" / "main.json"


def snapshots(place: Path, code: str = "c1") -> Snapshots[State]:
    return Snapshots(place, State, code)


def at_once(work: Callable[[], None]) -> None:
    work()


def keep(shop: Shop, kept: Snapshots[State]) -> None:
    Keeper(kept, shop.desk.fold, shop.journal, at_once).close()


def started(journal: MemoryJournal, kept: Snapshots[State] | None) -> Shop:
    """A shop on a journal that is there, as it comes up with a snapshot or without."""
    return Shop(journal=journal, open_with=lambda desk: open_desk(desk, snapshots=kept))


def worked(journal: MemoryJournal) -> Shop:
    """Four days: an order a day handed off, but for the second day's, which is still on the bar, and the
    last, which is being made."""
    shop = Shop(journal=journal)
    for day in range(1, 5):
        number = shop.ring_in()["id"]
        if day in (1, 3):
            shop.post(f"/api/tickets/{number}/bump")
            shop.post(f"/api/tickets/{number}/hand-off")
        shop.time += DAY
    shop.time -= DAY
    shop.post("/api/drinks/4.1/finish", {"steps": [1]})
    shop.post("/api/sold-out", {"item": "oat", "sold_out": True})
    return shop


def asked(shop: Shop) -> list[object]:
    """All that a shop tells of its past and present, but for what time it is."""
    told = [shop.get(path) for path in ("/api/queue", "/api/orders", "/api/times")]
    told += [shop.get(f"/api/tickets/{n}/life") for n in range(1, 5)]
    days = ("2026-03-02", "2026-03-03", "2026-03-04", "2026-03-05")
    told += [shop.get(f"/api/{what}?day={day}") for day in days for what in ("orders", "times")]
    return [{name: value for name, value in each.items() if name != "now"} for each in told]


def test_a_start_from_a_snapshot_comes_to_the_same(journal: Counted, place: Path) -> None:
    shop = worked(journal)
    keep(shop, snapshots(place))
    shop.post("/api/drinks/4.1/bump")
    whole, short = started(journal, None), started(journal, snapshots(place))
    assert short.desk.fold.state == whole.desk.fold.state == shop.desk.fold.state
    for each in (whole, short):
        each.time = shop.time
        each.post("/api/drinks/2.1/finish", {"steps": [1]})
    assert short.desk.fold.state == whole.desk.fold.state
    assert asked(short) == asked(whole)
    short.post("/api/tickets/4/hand-off")
    assert asked(short) != asked(whole)


def test_only_what_came_since_is_read_and_the_days_that_are_held(journal: Counted, place: Path) -> None:
    """The first day is handed off and two days past: no record of it is looked at again."""
    shop = worked(journal)
    keep(shop, snapshots(place))
    second = shop.desk.fold.state.days["2026-03-03"].first
    journal.reads.clear()
    again = started(journal, snapshots(place))
    assert again.desk.fold.state == shop.desk.fold.state
    last = shop.desk.fold.state.position
    assert set(journal.reads) == {last}
    again.time = shop.time
    again.get("/api/orders")
    assert set(journal.reads) == set(range(second, last + 1))


def test_a_file_that_is_none_is_no_hindrance(journal: Counted, place: Path) -> None:
    worked(journal)
    assert snapshots(place).load(journal) is None


def damaged(place: Path) -> None:
    place.write_bytes(place.read_bytes().replace(b'"oat"', b'"soy"', 1))


def cut(place: Path) -> None:
    place.write_bytes(place.read_bytes()[:-20])


def nonsense(place: Path) -> None:
    place.write_bytes(b"\x00\xff not json")


def of_another_shape(place: Path) -> None:
    place.write_text("[]")


@pytest.mark.parametrize("spoil", [damaged, cut, nonsense, of_another_shape])
def test_what_is_damaged_is_thrown_away_with_a_word(
    journal: Counted, place: Path, caplog: pytest.LogCaptureFixture, spoil: Callable[[Path], None]
) -> None:
    shop = worked(journal)
    keep(shop, snapshots(place))
    spoil(place)
    with caplog.at_level(logging.WARNING):
        again = started(journal, snapshots(place))
    assert again.desk.fold.state == shop.desk.fold.state
    assert "is not used, the journal is read from its start" in caplog.text


def test_what_other_code_made_is_thrown_away(
    journal: Counted, place: Path, caplog: pytest.LogCaptureFixture
) -> None:
    shop = worked(journal)
    keep(shop, snapshots(place, "c1"))
    assert snapshots(place, "c2").load(journal) is None
    assert "another version of Levelscoop" in caplog.text


def test_what_another_journal_led_to_is_thrown_away(
    journal: Counted, place: Path, caplog: pytest.LogCaptureFixture
) -> None:
    keep(worked(journal), snapshots(place))
    assert snapshots(place).load(MemoryJournal()) is None
    assert "another journal" in caplog.text


def test_a_journal_that_lost_its_end_is_read_from_its_start(
    journal: Counted, place: Path, caplog: pytest.LogCaptureFixture
) -> None:
    """The snapshot knows more than the journal then: to go on from it would be to guess."""
    keep(worked(journal), snapshots(place))
    journal._records.pop()
    assert snapshots(place).load(journal) is None
    assert "is not the one that it ends with" in caplog.text


@pytest.fixture
def keeper(journal: Counted, place: Path) -> tuple[Shop, Snapshots[State]]:
    shop, kept = Shop(journal=journal), snapshots(place)
    Keeper(kept, shop.desk.fold, journal, at_once, spacing=5).start()
    return shop, kept


def test_a_snapshot_is_kept_every_so_many_records(keeper: tuple[Shop, Snapshots[State]], place: Path) -> None:
    shop, kept = keeper
    before = shop.desk.fold.state.position
    for _ in range(5 - before - 1):
        shop.ring_in()
    assert not place.exists()
    shop.ring_in()
    join_snapshot()
    assert kept.position == 5
    assert snapshots(place).load(shop.journal) == shop.desk.fold.state


def test_a_disk_that_will_not_write_is_told_of_once(
    keeper: tuple[Shop, Snapshots[State]], place: Path, caplog: pytest.LogCaptureFixture
) -> None:
    shop, kept = keeper
    place.parent.write_text("in the way")
    for _ in range(8):
        shop.ring_in()
        join_snapshot()
    assert caplog.text.count("no snapshot could be kept") == 1
    assert kept.position == 0


def join_snapshot() -> None:
    """Wait for the snapshot that is being kept, if one is."""
    for thread in threading.enumerate():
        if thread.name == "snapshot":
            thread.join()
