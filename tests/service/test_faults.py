"""Kill -9 and pauses in the middle of ringing in: nothing acknowledged is lost, nothing is doubled."""

from __future__ import annotations

import contextlib
import itertools
import json
import os
import random
import shutil
import signal
import subprocess
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from redis import Redis
from redis.exceptions import RedisError

from service.host import redis_orphan
from service.host.redis_child import RedisChild
from service.journal.redis import RedisJournal, client
from tests.service.child import ORDER, Service, until

KILLS = 30
REGISTERS = 3

pytestmark = [pytest.mark.fault, pytest.mark.redis]


class Registers:
    """Registers that ring in without a pause, each order under its own key until it is answered."""

    def __init__(self, *services: Service) -> None:
        self.receipts: dict[str, dict[str, Any]] = {}
        self.failed: list[BaseException] = []
        self._services = services
        self._stop = threading.Event()
        self._threads = [threading.Thread(target=self._run, args=(n,)) for n in range(REGISTERS)]

    def _run(self, n: int) -> None:
        service = self._services[n % len(self._services)]
        try:
            for count in itertools.count():
                if self._stop.is_set():
                    return
                key = f"{n}-{count}"
                self.receipts[key] = service.ring_in(key)
        except BaseException as error:
            self.failed.append(error)

    def at_least(self, count: int) -> None:
        """Wait until so many orders are acknowledged."""
        until(lambda: len(self.receipts) >= count or bool(self.failed), f"{count} orders acknowledged")
        assert not self.failed, self.failed

    @contextmanager
    def ringing_in(self) -> Iterator[None]:
        for thread in self._threads:
            thread.start()
        try:
            yield
        finally:
            self._stop.set()
            for thread in self._threads:
                thread.join(60)
        assert not self.failed, self.failed


def check(registers: Registers, service: Service) -> None:
    """Every order answered stands once in the day's list and in the journal, in one row without gap."""
    acknowledged = sorted(int(receipt["id"]) for receipt in registers.receipts.values())
    orders = service.get("/api/orders")["orders"]
    assert acknowledged == list(range(1, len(acknowledged) + 1))
    assert [int(order["id"]) for order in orders] == acknowledged
    assert [order["number"] for order in orders] == acknowledged
    numbers = {receipt["id"]: receipt["number"] for receipt in registers.receipts.values()}
    assert {order["id"]: order["number"] for order in orders} == numbers


def heard(service: Service, orders: int) -> None:
    """Wait until a service has heard of so many orders."""
    until(lambda: len(service.get("/api/orders")["orders"]) >= orders, f"{orders} orders heard of")


def check_journal(socket: Path, orders: int) -> None:
    redis = client(socket=socket)
    records = RedisJournal(redis, redis, "main").read(0, 100_000)
    redis.close()
    assert [record.position for record in records] == list(range(1, len(records) + 1))
    assert sum(record.record.kind == "rung-in" for record in records) == orders


@pytest.mark.timeout(1200)
def test_the_service_killed_thirty_times(tmp_path: Path) -> None:
    chance = random.Random(1)
    with Service(tmp_path / "data") as service:
        registers = Registers(service)
        with registers.ringing_in():
            for _ in range(KILLS):
                registers.at_least(len(registers.receipts) + 3)
                time.sleep(chance.uniform(0, 0.02))  # anywhere within the handling of an order
                service.kill()
                service.start()
            registers.at_least(len(registers.receipts) + 3)
        check(registers, service)
        check_journal(service.data / "redis.sock", len(registers.receipts))


@pytest.mark.timeout(1200)
def test_redis_killed_thirty_times(tmp_path: Path) -> None:
    chance = random.Random(2)
    with Service(tmp_path / "data") as service:
        registers = Registers(service)
        killed = 0
        with registers.ringing_in():
            for _ in range(KILLS):
                registers.at_least(len(registers.receipts) + 3)
                # Receipts may still come in of what was appended before the kill.
                killed = service.next_redis(killed)
                time.sleep(chance.uniform(0, 0.02))
                os.kill(killed, signal.SIGKILL)
            registers.at_least(len(registers.receipts) + 3)
        check(registers, service)
        check_journal(service.data / "redis.sock", len(registers.receipts))
        assert service.process.poll() is None
        assert service.stop() == 0
    assert service.said().count("the journal's server ended with code") == KILLS


def test_both_killed_and_all_is_as_it_was(tmp_path: Path) -> None:
    with Service(tmp_path / "data") as service:
        for n in range(3):
            service.ring_in(str(n))
        service.call("POST", "/api/drinks/1.1/start", {"step": 1})
        service.call("POST", "/api/tickets/2/bump")
        before = service.get("/api/queue")
        pid = service.redis_pid()
        os.kill(pid, signal.SIGKILL)
        service.kill()
        service.start()
        after = service.get("/api/queue")
        assert {**after, "now": 0} == {**before, "now": 0}
        started = after["tickets"][0]["drinks"][0]["steps"][0]
        assert started["state"] == "running"
        assert started["started_at"] <= after["now"]


def test_an_orphan_is_stopped_before_the_next_start(tmp_path: Path) -> None:
    """As where the system does not tell a child of its parent's death: a server is left on the folder."""
    with Service(tmp_path / "data") as service:
        service.ring_in("1")
        first = service.redis_pid()
        service.kill()
        until(lambda: not Path(f"/proc/{first}").exists(), "its server ends with it")
        left = subprocess.Popen(RedisChild(service.data).command(), stdout=subprocess.DEVNULL)
        try:
            until(
                lambda: (service.data / "redis.pid").exists() and service.redis_pid() == left.pid, "it is up"
            )
            service.start()
            assert left.wait(30) == 0
            assert service.redis_pid() != left.pid
            assert f"process {left.pid}" in service.said()
            assert [order["id"] for order in service.get("/api/orders")["orders"]] == ["1"]
        finally:
            left.kill()
            left.wait()


def test_an_orphan_that_does_not_listen_is_killed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(redis_orphan, "PATIENCE_S", 0.5)
    # A server busy with a script does not come to its signal's work, as one on a broken disk would not.
    child = RedisChild(tmp_path)
    left = subprocess.Popen(child.command(), stdout=subprocess.DEVNULL)
    try:
        until(child.socket.exists, "it is up")
        busy = threading.Thread(target=_loop_for_ever, args=(child.socket,))
        busy.start()
        redis = client(socket=child.socket)
        until(lambda: _is_busy(redis), "it is busy")
        assert redis_orphan.stop_orphan(tmp_path) == left.pid
        assert left.wait(10) == -signal.SIGKILL
        busy.join(10)
        assert redis_orphan.stop_orphan(tmp_path) is None
    finally:
        left.kill()
        left.wait()


def _loop_for_ever(socket: Path) -> None:
    redis = client(socket=socket, extra_s=60)
    with contextlib.suppress(RedisError):
        redis.eval("redis.call('SET', 'a', 1) while true do end", 0)


def _is_busy(redis: Redis) -> bool:
    try:
        redis.ping()
    except RedisError:
        return True
    return False


def test_a_process_that_only_has_the_number_of_one_is_let_be(tmp_path: Path) -> None:
    (tmp_path / "redis.pid").write_text(f"{os.getpid()}\n")
    assert redis_orphan.stop_orphan(tmp_path) is None


def test_the_child_dies_with_its_parent(tmp_path: Path) -> None:
    with Service(tmp_path / "data") as service:
        pid = service.redis_pid()
        service.kill()
        until(lambda: not Path(f"/proc/{pid}").exists(), "the server ends with its parent")


def test_a_second_start_on_the_folder_is_refused_by_name(tmp_path: Path) -> None:
    with Service(tmp_path / "data") as first:
        second = Service(first.data)
        second.launch()
        assert second.process.wait(30) == 1
        assert f"in use by process {first.process.pid}, at {first.url}" in second.said()
        assert "Traceback" not in second.said()
        assert first.healthy()


def test_an_orderly_stop_leaves_a_snapshot_that_the_next_start_goes_on_from(tmp_path: Path) -> None:
    """And after a kill, which leaves none, what came since is read beside the one of before."""
    with Service(tmp_path / "data") as service:
        for n in range(3):
            service.ring_in(str(n))
        service.call("POST", "/api/tickets/2/bump")
        assert service.stop() == 0
        head = json.loads((service.data / "snapshot.json").read_bytes().partition(b"\n")[0])
        service.start()
        queue = service.get("/api/queue")
        assert queue["position"] == head["position"] == 5
        assert [ticket["state"] for ticket in queue["tickets"]] == ["waiting", "ready", "waiting"]
        service.ring_in("4")
        service.kill()
        service.start()
        assert [ticket["number"] for ticket in service.get("/api/queue")["tickets"]] == [1, 2, 3, 4]
        assert [order["number"] for order in service.get("/api/orders")["orders"]] == [1, 2, 3, 4]
        assert "is not used" not in service.said()


def test_a_port_in_use_is_refused_by_name(tmp_path: Path) -> None:
    with Service(tmp_path / "one") as first:
        second = Service(tmp_path / "two", PORT=str(first.port))
        second.launch()
        assert second.process.wait(30) == 1
        assert f"port {first.port}" in second.said()
        assert "PORT" in second.said()
        assert not (tmp_path / "two").exists()


def test_a_journal_with_a_cut_tail_loads_without_it(tmp_path: Path) -> None:
    with Service(tmp_path / "data") as service:
        service.ring_in("1")
        service.stop()
        (tail,) = (*service.data.glob("appendonlydir/*.incr.aof"), *service.data.glob("appendonly.aof"))
        with tail.open("ab") as file:
            file.write(b"*9\r\n$4\r\nXADD\r\n$17\r\nls:{main}:jour")
        service.start()
        assert "runcat" in service.said()
        assert [order["id"] for order in service.get("/api/orders")["orders"]] == ["1"]
        assert service.ring_in("2")["id"] == "2"


def test_the_journal_of_the_former_server_is_taken_over(tmp_path: Path) -> None:
    """``data/redis-6.2`` was written by Redis 6.2.14 with version 0.1 of this service: a snapshot and a tail.

    Order 1 (Ana, one cup) was rung in and handed off; 2 (Bea, two cups) and 3 (Cy, one) were left waiting.
    """
    old = Path(__file__).parent / "data" / "redis-6.2" / "appendonly.aof"
    data = tmp_path / "data"
    data.mkdir()
    shutil.copy(old, data)
    with Service(data) as service:
        queue = service.get("/api/queue")
        assert [(each["id"], each["name"], len(each["drinks"])) for each in queue["tickets"]] == [
            ("2", "Bea", 2),
            ("3", "Cy", 1),
        ]
        assert service.ring_in("d", {"drinks": [{"line": {"drink": "it"}}]})["id"] == "4"
        service.kill()
        service.start()
        assert [each["id"] for each in service.get("/api/queue")["tickets"]] == ["2", "3", "4"]
    # What it was is still there, moved by the server among its own files.
    assert (data / "appendonlydir" / "appendonly.aof").read_bytes() == old.read_bytes()


def test_a_disk_that_takes_no_more_and_then_does_again(tmp_path: Path) -> None:
    """The limit on a file's size stands for the full disk: the server's write fails in the same place."""
    import resource

    with Service(tmp_path / "data") as service:
        service.ring_in("1")
        (tail,) = (*service.data.glob("appendonlydir/*.incr.aof"), *service.data.glob("appendonly.aof"))
        full = (tail.stat().st_size + 100, resource.RLIM_INFINITY)
        for pid in (service.process.pid, service.redis_pid()):
            resource.prlimit(pid, resource.RLIMIT_FSIZE, full)
        status, answer = service.call("POST", "/api/orders", ORDER, "2")
        assert (status, answer["status"]) == (503, 503)
        assert len(service.get("/api/queue")["tickets"]) == 1
        assert service.get("/api/times")["open"] == 1
        free = (resource.RLIM_INFINITY, resource.RLIM_INFINITY)
        resource.prlimit(service.process.pid, resource.RLIMIT_FSIZE, free)
        # The server may have been started again under the limit, and is then stopped by its next write.
        assert service.ring_in("2")["id"] == "2"
        assert service.ring_in("2")["number"] == 2


@contextmanager
def paused(pid: int) -> Iterator[None]:
    os.kill(pid, signal.SIGSTOP)
    try:
        yield
    finally:
        os.kill(pid, signal.SIGCONT)


def test_redis_paused_and_every_command_says_so_in_time(tmp_path: Path) -> None:
    with Service(tmp_path / "data") as service:
        service.ring_in("1")
        answers: list[tuple[int, str]] = []

        def command(act: Callable[[], tuple[int, Any]]) -> None:
            status, answer = act()
            answers.append((status, answer["type"]))

        with paused(service.redis_pid()):
            threads = [
                threading.Thread(
                    target=command, args=(lambda n=n: service.call("POST", "/api/orders", ORDER, f"p{n}"),)
                )
                for n in range(5)
            ]
            for thread in threads:
                thread.start()
            for thread in threads:
                thread.join(30)
            command(lambda: service.call("POST", "/api/drinks/1.1/bump"))
            assert len(service.get("/api/queue")["tickets"]) == 1
            assert service.get("/api/orders")["orders"]
        assert [status for status, _ in answers] == [503] * 6
        assert {kind for _, kind in answers} <= {"/problems/journal-unsure", "/problems/journal-away"}
        ids = [service.ring_in(f"p{n}")["id"] for n in range(5)]
        assert sorted(ids) == ["2", "3", "4", "5", "6"]
        until(service.healthy, "the service recovers by itself")
        assert service.call("POST", "/api/drinks/1.1/bump")[0] == 200
        assert len(service.get("/api/orders")["orders"]) == 6


def test_two_services_on_one_store_number_in_one_row(tmp_path: Path) -> None:
    folder = tmp_path / "redis"
    folder.mkdir()
    redis = RedisChild(folder)
    redis.start()
    try:
        url = f"unix://{redis.socket}"
        with (
            Service(tmp_path / "a", REDIS_URL=url) as one,
            Service(tmp_path / "b", REDIS_URL=url) as two,
        ):
            assert not (tmp_path / "a" / "redis.pid").exists()
            third = Service(one.data, REDIS_URL=url)
            third.launch()
            assert third.process.wait(30) == 1
            assert "in use by process" in third.said()
            registers = Registers(one, two)
            with registers.ringing_in():
                registers.at_least(60)
            # What one acknowledged the other hears of from the journal, a moment later.
            for service in (one, two):
                heard(service, len(registers.receipts))
                check(registers, service)
            together: list[Any] = []
            threads = [
                threading.Thread(target=lambda each=each: together.append(each.ring_in("same")))
                for each in (one, two, one, two)
            ]
            for thread in threads:
                thread.start()
            for thread in threads:
                thread.join(30)
            assert len(together) == 4
            assert all(answer == together[0] for answer in together)
            heard(one, len(registers.receipts) + 1)
            assert len(one.get("/api/orders")["orders"]) == len(registers.receipts) + 1
            check_journal(redis.socket, len(registers.receipts) + 1)
    finally:
        redis.stop()


def test_a_restart_in_a_rush_of_sixty_drinks(tmp_path: Path) -> None:
    with Service(tmp_path / "data") as service:
        for n in range(20):
            service.ring_in(str(n), {"drinks": [{"line": ORDER["drinks"][0]["line"], "quantity": 3}]})
        service.kill()
        service.start()
        tickets = service.get("/api/queue")["tickets"]
        assert sum(len(ticket["drinks"]) for ticket in tickets) == 60
