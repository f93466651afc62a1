"""Command to journal: one effect per key, conflicts decided anew, and honest words when Redis is away."""

from __future__ import annotations

import threading
from collections.abc import Sequence
from itertools import pairwise

import pytest

from service.core.bar import commands as ask
from service.core.bar.events import Event, RungIn
from service.core.refusals import Code, Refused
from service.edges.journal_memory import MemoryJournal
from service.fold import Fold, Moved
from service.follow import Follower
from service.handle import Handler, Outcome
from service.journal import Conflict, Damaged, Envelope, Key, KeyReused, Record, Unavailable, Unsure
from tests.service.samples import NOON, OPEN, a_line, ring

KEY = Key("k", "f")
WAIT_S = 10.0


class Flaky(MemoryJournal):
    """A journal whose next appends can be made to go wrong in each way the real one can."""

    def __init__(self) -> None:
        super().__init__()
        self.before: list[str] = []
        self.away = False

    def append(
        self, expected: int, records: Sequence[Record], key: Key | None = None, answer: str = ""
    ) -> str | None:
        fate = self.before.pop(0) if self.before else "well"
        if fate == "refuse":
            raise Unavailable("no room")
        if fate == "lose":
            raise Unsure("cut off before")
        earlier = super().append(expected, records, key, answer)
        if fate == "lose answer":
            raise Unsure("cut off after")
        return earlier

    def answered(self, key: Key) -> str | None:
        if self.away:
            raise Unavailable("away")
        return super().answered(key)


class Till:
    """One process on a journal."""

    def __init__(self, journal: MemoryJournal) -> None:
        self.journal = journal
        self.fold = Fold()
        self.damage: list[Damaged] = []
        self.handler = Handler(journal, self.fold, lambda: NOON, self.damage.append)
        self.moves: list[Moved] = []
        self.fold.listen(self.moves.append)

    def ring_in(self, key: Key | None = None, command: ask.RingIn | None = None) -> Outcome:
        return self.handler.handle(command or ring(), answer, key)


def answer(events: tuple[Event, ...], position: int) -> str:
    orders = [event.order for event in events if isinstance(event, RungIn)]
    return f"order {orders} at {position}"


@pytest.fixture
def journal() -> Flaky:
    return Flaky()


@pytest.fixture
def till(journal: Flaky) -> Till:
    found = Till(journal)
    found.handler.handle(OPEN, answer)
    return found


def length(journal: MemoryJournal) -> int:
    return len(journal.read(0, 10_000))


def test_an_order_is_in_the_journal_before_it_is_in_the_fold(till: Till) -> None:
    assert till.ring_in(KEY).answer == "order ['1'] at 2"
    assert length(till.journal) == 2
    assert list(till.fold.state.tickets) == ["1"]
    assert [move.after.position for move in till.moves] == [1, 2]


def test_a_retry_gets_the_first_answer(till: Till) -> None:
    first = till.ring_in(KEY)
    second = till.ring_in(KEY)
    assert (second.answer, second.repeated, second.events) == (first.answer, True, ())
    assert length(till.journal) == 2


def test_a_retry_gets_it_even_when_it_would_be_refused_now(till: Till) -> None:
    first = till.ring_in(KEY)
    till.handler.handle(ask.SellOut("milk", True), answer)
    assert till.ring_in(KEY).answer == first.answer
    with pytest.raises(Refused):
        till.ring_in(Key("new", "f"))


def test_a_retry_after_a_restart_gets_it_too(till: Till) -> None:
    first = till.ring_in(KEY)
    assert Till(till.journal).ring_in(KEY).answer == first.answer


def test_the_key_of_another_request_is_refused(till: Till) -> None:
    till.ring_in(KEY)
    with pytest.raises(KeyReused):
        till.ring_in(Key("k", "other body"))


def test_an_answer_lost_on_the_way_is_found_by_its_key(till: Till, journal: Flaky) -> None:
    journal.before = ["lose answer"]
    assert till.ring_in(KEY).answer == "order ['1'] at 2"
    assert till.ring_in(KEY).answer == "order ['1'] at 2"
    assert length(journal) == 2


def test_an_append_that_may_be_in_is_said_to_be_unsure_and_its_retry_is_safe(
    till: Till, journal: Flaky
) -> None:
    for fate in ("lose answer", "lose"):
        key = Key(fate, "f")
        journal.before, journal.away = [fate], True
        with pytest.raises(Unsure):
            till.ring_in(key)
        journal.away = False
        before = till.ring_in(key).answer
        assert till.ring_in(key).answer == before
    assert length(journal) == 3


def test_what_was_refused_by_the_storage_is_not_in_the_fold(till: Till, journal: Flaky) -> None:
    journal.before = ["refuse"]
    with pytest.raises(Unavailable):
        till.ring_in(KEY)
    assert (length(journal), till.fold.state.position) == (1, 1)
    assert till.ring_in(KEY).answer == "order ['1'] at 2"


def test_two_processes_number_their_orders_in_one_row(till: Till, journal: Flaky) -> None:
    other = Till(journal)
    answers = [each.ring_in().answer for each in (other, till, till, other)]
    assert answers == [f"order ['{n}'] at {n + 1}" for n in range(1, 5)]


def test_a_refusal_is_made_on_the_latest_state(till: Till, journal: Flaky) -> None:
    """Another process has brought the milk back, and we have not heard of it yet."""
    till.handler.handle(ask.SellOut("milk", True), answer)
    Till(journal).handler.handle(ask.SellOut("milk", False), answer)
    assert till.ring_in().answer == "order ['1'] at 4"


def test_asking_again_for_what_is_keeps_the_answer_but_appends_nothing(till: Till) -> None:
    till.ring_in()
    bump = ask.BumpDrink("1.1")
    assert till.handler.handle(bump, answer, Key("1", "f")).events
    assert not till.handler.handle(bump, answer, Key("2", "f")).events
    assert not till.handler.handle(bump, answer).events
    assert length(till.journal) == 3


def test_a_refusal_is_told_as_it_is(till: Till) -> None:
    with pytest.raises(Refused) as refused:
        till.handler.handle(ask.HandOff("7"), answer, KEY)
    assert refused.value.code is Code.UNKNOWN_TICKET


def test_a_writer_that_is_always_late_gives_up(
    till: Till, journal: Flaky, monkeypatch: pytest.MonkeyPatch
) -> None:
    def late(*_: object) -> None:
        raise Conflict(till.fold.state.position, till.fold.state.position + 1)

    monkeypatch.setattr(journal, "append", late)
    with pytest.raises(Unavailable, match="in a row"):
        till.ring_in()


def test_a_listener_that_raises_neither_hides_the_order_nor_stops_the_others(journal: Flaky) -> None:
    """The order is in the journal: an answer that denies it would have it rung in twice."""
    till = Till(journal)
    told: list[Moved] = []

    def broken(moved: Moved) -> None:
        raise RuntimeError("a display that cannot be drawn")

    till.fold.listen(broken)
    till.fold.listen(told.append)
    till.handler.handle(OPEN, answer)
    assert till.ring_in(KEY).answer == "order ['1'] at 2"
    assert [move.after.position for move in told] == [1, 2]


def test_a_journal_that_lost_its_tail_is_damage_and_not_a_conflict(till: Till, journal: Flaky) -> None:
    """As when a disk acknowledged what it had not written, and the power went."""
    till.ring_in(KEY)
    till.ring_in()
    del journal._records[2:]
    with pytest.raises(Damaged, match="ends at record 2, but went on to 3"):
        till.ring_in(Key("new", "f"))
    assert [str(each) for each in till.damage] != []
    assert length(journal) == 2


def test_orders_rung_in_by_many_threads_are_one_row(till: Till, journal: Flaky) -> None:
    tills = [till, Till(journal)]
    threads = [
        threading.Thread(target=lambda n=n: [tills[n % 2].ring_in(Key(f"{n}-{i}", "f")) for i in range(10)])
        for n in range(6)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(WAIT_S)
    for each in tills:
        each.fold.catch_up(journal)
    assert list(till.fold.state.tickets) == [str(n) for n in range(1, 61)]
    assert [ticket.number for ticket in till.fold.state.tickets.values()] == list(range(1, 61))
    assert tills[1].fold.state == till.fold.state


# --- following ------------------------------------------------------------------------------------


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


def test_a_follower_survives_a_journal_that_is_away(till: Till, journal: Flaky) -> None:
    away = threading.Event()
    back = threading.Event()

    class Away(MemoryJournal):
        def wait(self, after: int, seconds: float) -> list[Envelope]:
            if not back.is_set():
                away.set()
                raise Unavailable("away")
            return journal.wait(after, seconds)

    fold = Fold()
    arrived = threading.Event()
    fold.listen(lambda moved: arrived.set())
    follower = Follower(Away(), fold, lambda damage: None)
    follower.start()
    assert away.wait(WAIT_S)
    back.set()
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


def test_a_follower_goes_on_after_a_fault_of_ours(till: Till, journal: Flaky) -> None:
    failed = threading.Event()
    mended = threading.Event()

    class Faulty(MemoryJournal):
        def wait(self, after: int, seconds: float) -> list[Envelope]:
            if not mended.is_set():
                failed.set()
                raise RuntimeError("nobody thought of this")
            return journal.wait(after, seconds)

    fold = Fold()
    arrived = threading.Event()
    fold.listen(lambda moved: arrived.set())
    follower = Follower(Faulty(), fold, lambda damage: None)
    follower.start()
    assert failed.wait(WAIT_S)
    mended.set()
    assert arrived.wait(WAIT_S)
    assert follower.reachable.wait(WAIT_S)
    follower.stop()


def test_what_an_order_needs_is_fetched_before_anybody_hears_of_it(till: Till, journal: Flaky) -> None:
    """And while it cannot be, the order waits in the journal instead of being shown without."""
    till.ring_in()
    other = Till(journal)
    happened: list[str] = []
    away = [Unavailable("away")]

    def fetch(events: Sequence[Event]) -> None:
        if away:
            raise away.pop()
        happened.append(f"fetched for {len(events)}")

    other.fold.fetch = fetch
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
