"""Command to journal: one effect per key, conflicts decided anew, and honest words when Redis is away."""

from __future__ import annotations

import threading

import pytest

from service.journal.journal import Conflict, Damaged, Key, KeyReused, Unavailable, Unsure
from service.journal.refusals import Code, Refused
from service.orders import commands as ask
from service.orders.subject import OrdersMoved
from tests.service.samples import OPEN
from tests.service.tills import WAIT_S, Flaky, Till, answer, length

KEY = Key("k", "f")


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
    told: list[OrdersMoved] = []

    def broken(moved: OrdersMoved) -> None:
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
