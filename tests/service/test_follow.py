"""Following the journal: what others append arrives once and in order, and damage is not guessed over."""

from __future__ import annotations

import threading
from collections.abc import Sequence
from itertools import pairwise

import pytest

from service.journal.follower import Follower
from service.journal.journal import Damaged, Envelope, Record, Unavailable
from service.journal.memory import MemoryJournal
from service.orders.events import Event, RungIn
from service.orders.subject import ORDERS, OrdersFold
from tests.service.samples import NOON, OPEN, a_line, ring
from tests.service.tills import WAIT_S, Flaky, Till, answer


def test_a_follower_brings_what_others_append(till: Till, journal: Flaky) -> None:
    other = Till(journal)
    arrived = threading.Event()
    other.fold.listen(lambda moved: arrived.set() if "1" in moved.after.tickets else None)
    follower = Follower(journal, other.fold, lambda damage: None)
    follower.start()
    till.ring_in()
    assert arrived.wait(WAIT_S)
    follower.stop()
    assert other.fold.state == till.fold.state


def test_a_listener_hears_every_event_once_and_in_order(till: Till, journal: Flaky) -> None:
    """While handler and follower of one process race for the same records."""
    damage: list[Damaged] = []
    follower = Follower(journal, till.fold, damage.append)
    follower.start()
    for n in range(200):
        till.ring_in(command=ring(a_line(unit=n)))
    follower.stop()
    assert damage == []
    events = [event for move in till.moves for event in move.events]
    assert [event.order for event in events if isinstance(event, RungIn)] == [str(n) for n in range(1, 201)]
    positions = [(move.before.position, move.after.position) for move in till.moves]
    assert all(one[1] == two[0] for one, two in pairwise(positions))


def test_what_is_read_twice_is_folded_once(till: Till, journal: Flaky) -> None:
    till.ring_in()
    till.fold.apply(journal.read(0, 10))
    till.fold.apply(journal.read(1, 10))
    assert (till.fold.state.position, len(till.moves)) == (2, 2)


@pytest.mark.parametrize("fault", [Unavailable("away"), RuntimeError("nobody thought of this")])
def test_a_follower_goes_on_after_a_fault(till: Till, journal: Flaky, fault: Exception) -> None:
    """Whether the journal was away or the fault was ours."""
    failed = threading.Event()
    mended = threading.Event()

    class Faulty(MemoryJournal):
        def wait(self, after: int, seconds: float) -> list[Envelope]:
            if not mended.is_set():
                failed.set()
                raise fault
            return journal.wait(after, seconds)

    fold = OrdersFold(ORDERS)
    arrived = threading.Event()
    fold.listen(lambda moved: arrived.set())
    follower = Follower(Faulty(), fold, lambda damage: None)
    follower.start()
    assert failed.wait(WAIT_S)
    mended.set()
    assert arrived.wait(WAIT_S)
    assert follower.reachable.wait(WAIT_S)
    follower.stop()


def follow_after_a_cut(journal: MemoryJournal, till: Till) -> Damaged:
    """What a follower says that finds ``journal`` where the till's was before it was cut off."""
    cut = threading.Event()

    class Back(MemoryJournal):
        def store(self) -> str:
            return journal.store()

        def end(self) -> int:
            return journal.end()

        def wait(self, after: int, seconds: float) -> list[Envelope]:
            if not cut.is_set():
                cut.set()
                raise Unavailable("cut off")
            return journal.wait(after, 0.01)

    found: list[Damaged] = []
    told = threading.Event()

    def on_damage(damage: Damaged) -> None:
        found.append(damage)
        told.set()

    follower = Follower(Back(), till.fold, on_damage)
    follower.start()
    assert told.wait(WAIT_S)
    follower.stop()
    assert not follower.reachable.is_set()
    return found[0]


def test_a_follower_sees_that_the_journal_came_back_shorter(till: Till, journal: Flaky) -> None:
    till.ring_in()
    till.fold.catch_up(journal)
    journal._records.pop()
    assert "ends at record 1, but went on to 2" in str(follow_after_a_cut(journal, till))


def test_a_follower_sees_that_another_journal_came_back(till: Till, journal: Flaky) -> None:
    till.fold.catch_up(journal)
    other = Till(MemoryJournal())
    other.handler.handle(OPEN, answer)
    other.ring_in()
    assert "another than before" in str(follow_after_a_cut(other.journal, till))


def test_what_an_order_needs_is_fetched_before_anybody_hears_of_it(till: Till, journal: Flaky) -> None:
    """And while it cannot be, the order waits in the journal instead of being shown without."""
    till.ring_in()
    happened: list[str] = []
    away = [Unavailable("away")]

    def fetch(events: Sequence[Event]) -> None:
        if away:
            raise away.pop()
        happened.append(f"fetched for {len(events)}")

    other = Till(journal, fetch)
    other.fold.listen(lambda moved: happened.append(f"told of {len(moved.events)}"))
    with pytest.raises(Unavailable):
        other.fold.catch_up(journal)
    assert (other.fold.state.position, other.moves) == (0, [])
    other.fold.catch_up(journal)
    assert other.fold.state == till.fold.state
    assert happened == ["fetched for 2", "told of 2"]


def test_a_gap_in_the_journal_stops_the_follower(till: Till) -> None:
    class Gappy(MemoryJournal):
        def wait(self, after: int, seconds: float) -> list[Envelope]:
            return [Envelope(after + 2, Record("back-on", 1, NOON, '{"item":"milk"}'))]

    found: list[Damaged] = []
    told = threading.Event()

    def on_damage(damage: Damaged) -> None:
        found.append(damage)
        told.set()

    follower = Follower(Gappy(), till.fold, on_damage)
    follower.start()
    assert told.wait(WAIT_S)
    follower.stop()
    assert "missing" in str(found[0])
    assert till.fold.state.position == 1


def test_a_record_that_does_not_fit_what_came_before_stops_the_follower(till: Till) -> None:
    """It is named, and not read again and again."""

    class Misfit(MemoryJournal):
        def wait(self, after: int, seconds: float) -> list[Envelope]:
            return [Envelope(after + 1, Record("drink-bumped", 1, NOON, '{"drink":"99.1"}'))]

    found: list[Damaged] = []
    told = threading.Event()

    def on_damage(damage: Damaged) -> None:
        found.append(damage)
        told.set()

    follower = Follower(Misfit(), till.fold, on_damage)
    follower.start()
    assert told.wait(WAIT_S)
    follower.stop()
    assert "record 2 ('drink-bumped') does not fit what came before it" in str(found[0])
