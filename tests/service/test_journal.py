"""One contract for every storage: what a journal promises, on a list, on fakeredis and on a real Redis."""

from __future__ import annotations

import threading
import uuid
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, cast

import pytest
from redis import Redis

from service.journal.journal import (
    Conflict,
    Damaged,
    Envelope,
    Journal,
    Key,
    KeyReused,
    Origin,
    Record,
    Unavailable,
    Unsure,
)
from service.journal.memory import MemoryJournal
from service.journal.redis import RedisJournal, client

Opener = Callable[[], Journal]
"""Opens one more journal on the same store, as another process would."""


def note(text: str, at: int = 1) -> Record:
    return Record("note", 1, at, text)


def on_redis(redis: Redis, store: str) -> RedisJournal:
    return RedisJournal(redis, redis, store)


@pytest.fixture(
    params=["memory", "fakeredis", pytest.param("redis", marks=pytest.mark.redis)],
)
def opener(request: pytest.FixtureRequest) -> Iterator[Opener]:
    store = uuid.uuid4().hex[:12]
    if request.param == "memory":
        journal = MemoryJournal()
        yield lambda: journal
    elif request.param == "fakeredis":
        import fakeredis

        server = fakeredis.FakeServer()
        yield lambda: on_redis(fakeredis.FakeRedis(server=server, decode_responses=True), store)
    else:
        socket: Path = request.getfixturevalue("redis_socket")
        clients: list[Redis] = []

        def open_one() -> RedisJournal:
            commands, blocking = client(socket=socket), client(socket=socket, extra_s=5)
            clients.extend((commands, blocking))
            return RedisJournal(commands, blocking, store)

        yield open_one
        for each in clients:
            each.close()


def texts(found: list[Envelope]) -> list[tuple[int, str]]:
    return [(each.position, each.record.body) for each in found]


def test_positions_count_from_one_without_gap(opener: Opener) -> None:
    journal = opener()
    journal.append(0, [note("a"), note("b")])
    journal.append(2, [note("c")])
    assert texts(journal.read(0, 10)) == [(1, "a"), (2, "b"), (3, "c")]


def test_a_record_comes_back_as_it_was_written(opener: Opener) -> None:
    by = Origin("Zoë", "bar screen", "a-key")
    record = Record("rung-in", 3, 1_772_452_800_123, '{"name":"Zoë 👩\u200d🍳 \\"x\\""}', by)
    opener().append(0, [record])
    assert opener().read(0, 1) == [Envelope(1, record)]


def test_reading_begins_after_a_position_and_stops_at_the_limit(opener: Opener) -> None:
    journal = opener()
    journal.append(0, [note(str(n)) for n in range(5)])
    assert texts(journal.read(1, 2)) == [(2, "1"), (3, "2")]
    assert journal.read(5, 10) == []
    assert journal.read(99, 10) == []


def test_an_append_at_another_position_is_a_conflict_and_leaves_nothing(opener: Opener) -> None:
    journal = opener()
    journal.append(0, [note("a")])
    for wrong in (0, 2):
        with pytest.raises(Conflict):
            journal.append(wrong, [note("b")], Key("k", "f"), "answer")
    assert texts(journal.read(0, 10)) == [(1, "a")]
    assert journal.answered(Key("k", "f")) is None


def test_the_same_key_and_request_get_the_first_answer_and_append_nothing(opener: Opener) -> None:
    journal = opener()
    assert journal.append(0, [note("a")], Key("k", "f"), "first") is None
    assert opener().append(1, [note("b")], Key("k", "f"), "second") == "first"
    # Also when the caller's position is out of date: the key comes first.
    assert opener().append(0, [note("b")], Key("k", "f"), "second") == "first"
    assert opener().answered(Key("k", "f")) == "first"
    assert texts(journal.read(0, 10)) == [(1, "a")]


def test_the_same_key_with_another_request_is_refused(opener: Opener) -> None:
    journal = opener()
    journal.append(0, [note("a")], Key("k", "f"), "first")
    with pytest.raises(KeyReused):
        journal.append(1, [note("b")], Key("k", "other"), "second")
    with pytest.raises(KeyReused):
        journal.answered(Key("k", "other"))
    assert journal.answered(Key("k", "f")) == "first"
    assert len(journal.read(0, 10)) == 1


def test_a_key_may_be_kept_without_records(opener: Opener) -> None:
    journal = opener()
    journal.append(0, [], Key("k", "f"), "nothing changed")
    assert journal.answered(Key("k", "f")) == "nothing changed"
    assert journal.read(0, 10) == []


def test_keys_do_not_meddle_with_each_other(opener: Opener) -> None:
    journal = opener()
    journal.append(0, [note("a")], Key("k", "f"), "1")
    journal.append(1, [note("b")], Key("k ", "f"), "2")
    journal.append(2, [note("c")], Key("ключ", "f"), "3")
    assert [journal.answered(Key(k, "f")) for k in ("k", "k ", "ключ", "K")] == ["1", "2", "3", None]


def test_waiting_returns_at_once_when_there_is_news(opener: Opener) -> None:
    journal = opener()
    journal.append(0, [note("a"), note("b")])
    assert texts(journal.wait(1, 5)) == [(2, "b")]


def test_waiting_ends_empty_when_nothing_comes(opener: Opener) -> None:
    assert opener().wait(0, 0.02) == []


def test_waiting_is_woken_by_another_writer(opener: Opener) -> None:
    reader, writer = opener(), opener()
    found: list[Envelope] = []
    thread = threading.Thread(target=lambda: found.extend(reader.wait(0, 10)))
    thread.start()
    writer.append(0, [note("a")])
    thread.join(10)
    assert texts(found) == [(1, "a")]


def test_many_writers_at_once_leave_no_gap_and_nothing_double(opener: Opener) -> None:
    """Four writers, each at what it believes to be the end: conflicts, and one row of records."""
    each, writers = 25, 4

    def write(name: int) -> None:
        journal = opener()
        for n in range(each):
            while True:
                end = len(journal.read(0, 1000))
                try:
                    journal.append(end, [note(f"{name}-{n}")])
                    break
                except Conflict:
                    continue

    threads = [threading.Thread(target=write, args=(name,)) for name in range(writers)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(60)
    found = texts(opener().read(0, 1000))
    assert [position for position, _ in found] == list(range(1, each * writers + 1))
    assert {text for _, text in found} == {f"{w}-{n}" for w in range(writers) for n in range(each)}


def test_one_key_used_by_many_at_once_has_one_effect(opener: Opener) -> None:
    answers: list[str] = []

    def write(name: int) -> None:
        journal = opener()
        while True:
            try:
                end = len(journal.read(0, 100))
                answers.append(journal.append(end, [note("x")], Key("k", "f"), str(name)) or str(name))
                return
            except Conflict:
                continue

    threads = [threading.Thread(target=write, args=(name,)) for name in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(60)
    assert len(answers) == 6
    assert len(set(answers)) == 1
    assert len(opener().read(0, 100)) == 1


def test_a_journal_tells_where_it_ends(opener: Opener) -> None:
    journal = opener()
    assert journal.end() == 0
    journal.append(0, [note("a"), note("b")])
    assert opener().end() == 2


def test_a_conflict_tells_where_the_journal_is(opener: Opener) -> None:
    journal = opener()
    journal.append(0, [note("a"), note("b")])
    with pytest.raises(Conflict) as conflict:
        journal.append(7, [note("c")])
    assert conflict.value.position == 2


def test_a_journal_has_a_name_of_its_own_that_stays(opener: Opener) -> None:
    name = opener().store()
    opener().append(0, [note("a")])
    assert opener().store() == name
    assert MemoryJournal().store() != name


def test_books_are_kept_by_version(opener: Opener) -> None:
    store = cast(Any, opener())
    files = {"shop.toml": "[shop]\n", "drinks/taro.toml": "name = 'Taró'\n"}
    store.keep("abc", files)
    store.keep("abc", files)
    assert cast(Any, opener()).files("abc") == files
    assert store.files("other") is None


# --- what only Redis can do wrong -----------------------------------------------------------------


@pytest.fixture
def fake() -> Redis:
    import fakeredis

    return fakeredis.FakeRedis(decode_responses=True)


def test_keys_of_a_store_share_one_hash_tag(fake: Redis) -> None:
    journal = on_redis(fake, "quay")
    journal.append(0, [note("a")], Key("k", "f"), "x")
    journal.keep("v", {"a": "b"})
    journal.store()
    names = cast(list[str], fake.keys("*"))
    assert len(names) == 4
    assert all(name.startswith("ls:{quay}:") for name in names)


def test_a_record_of_before_there_were_names_is_nobodys(fake: Redis) -> None:
    told = {"kind": "note", "version": "1", "at": "7", "body": "{}"}
    fake.xadd("ls:{quay}:journal", cast(dict[Any, Any], told), id="1-0")
    assert on_redis(fake, "quay").read(0, 5) == [Envelope(1, Record("note", 1, 7, "{}", Origin()))]


def test_two_stores_on_one_server_have_two_names(fake: Redis) -> None:
    assert on_redis(fake, "quay").store() != on_redis(fake, "hill").store()


def test_a_key_is_forgotten_after_a_week_not_before(fake: Redis) -> None:
    on_redis(fake, "quay").append(0, [note("a")], Key("k", "f"), "x")
    (place,) = cast(list[str], fake.keys("*:key:*"))
    assert 0 <= 7 * 24 * 3600 - fake.ttl(place) <= 5


@pytest.mark.parametrize(
    "entry",
    [
        ("5-3", {"kind": "note", "version": "1", "at": "1", "body": "{}"}),
        ("5-0", {"kind": "note", "version": "1", "at": "1"}),
        ("5-0", {"kind": "note", "version": "one", "at": "1", "body": "{}"}),
    ],
)
def test_a_foreign_entry_is_damage_not_data(fake: Redis, entry: tuple[str, dict[str, str]]) -> None:
    fake.xadd("ls:{quay}:journal", cast(Any, entry[1]), id=entry[0])
    with pytest.raises(Damaged, match="5-"):
        on_redis(fake, "quay").read(0, 10)


def test_a_server_that_is_not_there_is_unavailable(tmp_path: Path) -> None:
    redis = client(socket=tmp_path / "nobody.sock")
    journal = RedisJournal(redis, redis, "quay")
    for ask in (
        lambda: journal.read(0, 1),
        lambda: journal.wait(0, 0.01),
        lambda: journal.answered(Key("k", "f")),
        lambda: journal.files("v"),
        journal.store,
        journal.end,
    ):
        with pytest.raises(Unavailable):
            ask()
    with pytest.raises(Unsure):
        journal.append(0, [note("a")])


@pytest.mark.redis
def test_a_server_that_will_not_write_leaves_nothing(redis_socket: Path) -> None:
    """As with a full memory or disk: the script is refused as a whole, and the reason is told."""
    redis = client(socket=redis_socket)
    journal = RedisJournal(redis, redis, "full")
    name = journal.store()
    redis.config_set("maxmemory", "1")  # a byte: less than any server takes by itself
    try:
        assert journal.store() == name
        with pytest.raises(Unavailable, match="refused to write") as refused:
            journal.append(0, [note("a" * 100)], Key("k", "f"), "x")
        assert not isinstance(refused.value, Unsure)
        assert journal.read(0, 10) == []
    finally:
        redis.config_set("maxmemory", "0")
    assert journal.append(0, [note("a")], Key("k", "f"), "x") is None
    redis.close()
