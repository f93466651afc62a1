"""Displays over real websockets, on a real service: through a crash, a flood, and a display that is slow."""

from __future__ import annotations

import base64
import contextlib
import json
import os
import queue
import socket
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from service.orders import wire as orders_wire
from service.orders.live import QUEUE_LONGEST
from service.web.websocket import BURST
from tests.service.child import ORDER, UP_S, Service, until

pytestmark = pytest.mark.redis

AT_ONCE_S = 3.0
"""Sooner than a display that does not answer pings would be given up (s)."""


@pytest.fixture
def service(tmp_path: Path) -> Iterator[Service]:
    with Service(tmp_path / "data") as found:
        yield found


class Link:
    """A websocket by hand (RFC 6455: a client's frames are masked), speaking Engine.IO 4.

    By hand, so that it can misbehave, and so that events are taken in the order they come: the Python
    client of Socket.IO hands them to threads.
    """

    def __init__(self, service: Service, buffer: int | None = None, origin: str | None = None) -> None:
        self._socket = socket.socket()
        try:
            if buffer is not None:
                self._socket.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, buffer)
            self._socket.settimeout(UP_S)
            self._socket.connect(("127.0.0.1", service.port))
            self._file = self._socket.makefile("rb")
            self._shake_hands(service.port, origin)
        except OSError:
            self._socket.close()
            raise

    def _shake_hands(self, port: int, origin: str | None) -> None:
        lines = [
            "GET /socket.io/?EIO=4&transport=websocket HTTP/1.1",
            f"Host: 127.0.0.1:{port}",
            "Upgrade: websocket",
            "Connection: Upgrade",
            f"Sec-WebSocket-Key: {base64.b64encode(os.urandom(16)).decode()}",
            "Sec-WebSocket-Version: 13",
            *([f"Origin: {origin}"] if origin else []),
        ]
        self._socket.sendall("\r\n".join([*lines, "", ""]).encode())
        self.status = self._file.readline().decode().strip()
        while self._file.readline().strip():
            pass

    def send(self, text: str) -> None:
        data = text.encode()
        size = bytes([0x80 | len(data)]) if len(data) < 126 else b"\xff" + len(data).to_bytes(8, "big")
        self._socket.sendall(b"\x81" + size + b"\0\0\0\0" + data)

    def follow(self, since: int | None = None, store: str | None = None) -> None:
        self.send("40")
        self.send("42" + json.dumps(["follow", {"since": since, "store": store}]))

    def receive(self) -> str | None:
        """The next message; None when the connection has ended."""
        with contextlib.suppress(OSError, ValueError):
            head = self._file.read(2)
            if len(head) == 2 and head[0] == 0x81:
                size = head[1]
                if size > 125:
                    size = int.from_bytes(self._file.read(2 if size == 126 else 8), "big")
                return self._file.read(size).decode()
        return None

    def is_cut_off(self) -> bool:
        """Read what there is; whether the connection has ended."""
        self._socket.settimeout(0.2)
        try:
            while self._socket.recv(65536):
                pass
        except TimeoutError:
            return False
        except OSError:
            return True
        return True

    def close(self) -> None:
        with contextlib.suppress(OSError):
            self._socket.shutdown(socket.SHUT_RDWR)
        self._file.close()
        self._socket.close()


class Display:
    """A display that folds what comes, and resumes from where it was when the connection ends."""

    def __init__(self, service: Service) -> None:
        self._service = service
        self.store: str | None = None
        self.position: int | None = None
        self.tickets: dict[str, Any] = {}
        self.faults: list[str] = []
        self._answers: queue.Queue[int] = queue.Queue()
        self._stop = threading.Event()
        self._link = self._connect()
        self._thread = threading.Thread(target=self._run)
        self._thread.start()

    def _connect(self) -> Link:
        link = Link(self._service)
        link.follow(self.position, self.store)
        return link

    def _run(self) -> None:
        while not self._stop.is_set():
            packet = self._link.receive()
            if packet is None:
                self._again()
            else:
                self._take(packet)
        self._link.close()

    def _again(self) -> None:
        self._link.close()
        while not self._stop.wait(0.05):
            with contextlib.suppress(OSError):
                self._link = self._connect()
                return

    def _take(self, packet: str) -> None:
        if packet == "2":
            self._link.send("3")
        elif packet.startswith("42"):
            event, body = json.loads(packet[2:])
            {"snapshot": self._snapshot, "change": self._change}[event](body)
        elif packet.startswith("437"):
            self._answers.put(json.loads(packet[3:])[0]["now"])

    def _snapshot(self, body: dict[str, Any]) -> None:
        orders_wire.Snapshot.model_validate(body)
        self.tickets = {ticket["id"]: ticket for ticket in body["tickets"]}
        self.store, self.position = body["store"], body["position"]

    def _change(self, body: dict[str, Any]) -> None:
        orders_wire.Change.model_validate(body)
        if body["after"] != self.position:
            self.faults.append(f"at {self.position}, got what comes after {body['after']}")
        for gone in body["gone"]:
            self.tickets.pop(gone, None)
        self.tickets |= {ticket["id"]: ticket for ticket in body["tickets"]}
        self.position = body["position"]

    def shows(self) -> list[Any]:
        return list(self.tickets.values())

    def clock(self) -> int:
        """The service's clock, asked for with an acknowledgement numbered 7."""
        self._link.send('427["clock"]')
        return self._answers.get(timeout=5)

    def close(self) -> None:
        self._stop.set()
        # Any message wakes the reader, which then ends.
        with contextlib.suppress(OSError):
            self._link.send('427["clock"]')
        self._thread.join(UP_S)


def same(service: Service, *displays: Display) -> None:
    """All displays come to the position of the service, and then show what it shows."""
    told = service.get("/api/queue")
    for display in displays:
        until(lambda display=display: display.position == told["position"], "a display catches up")  # type: ignore[misc]
        assert display.shows() == told["tickets"]
        assert display.faults == []


def test_two_displays_stay_the_same_through_a_crash(service: Service) -> None:
    one, two = Display(service), Display(service)
    service.ring_in("1")
    service.ring_in("2")
    same(service, one, two)
    service.kill()
    service.start()
    service.ring_in("3")
    service.call("POST", "/api/tickets/1/bump")
    service.call("POST", "/api/tickets/1/hand-off")
    same(service, one, two)
    assert [ticket["id"] for ticket in one.shows()] == ["2", "3"]
    one.close()
    two.close()


def test_nothing_is_missed_while_orders_come_in_and_displays_join(service: Service) -> None:
    stop = threading.Event()

    def ring() -> None:
        n = 0
        while not stop.is_set():
            service.ring_in(str(n))
            n += 1

    thread = threading.Thread(target=ring)
    thread.start()
    displays = [Display(service) for _ in range(5)]
    until(lambda: len(displays[-1].tickets) > 5, "orders come in")
    stop.set()
    thread.join(30)
    same(service, *displays)
    for display in displays:
        display.close()


def test_the_clock_answers(service: Service) -> None:
    display = Display(service)
    before = service.get("/api/queue")["now"]
    assert before <= display.clock() <= before + 10_000
    display.close()


# --- displays that misbehave ------------------------------------------------------------------------


def test_a_foreign_page_cannot_open_a_socket(service: Service) -> None:
    for origin in ("http://evil.example", f"http://127.0.0.1:{service.port + 1}"):
        raw = Link(service, origin=origin)
        assert " 403 " in raw.status
        raw.close()
    raw = Link(service, origin=service.url)
    assert " 101 " in raw.status
    raw.close()


@pytest.mark.parametrize("sent", ['42["bump","1.1"]', "4" + "x" * 100_000, '42["follow",7]'])
def test_nonsense_ends_a_connection_and_no_other(service: Service, sent: str) -> None:
    good, bad = Display(service), Link(service)
    bad.follow()
    bad.send(sent)
    until(bad.is_cut_off, "the connection ends", AT_ONCE_S)
    service.ring_in("1")
    same(service, good)
    assert "Traceback" not in service.said()
    bad.close()
    good.close()


def test_a_flood_is_cut_off_while_others_are_served(service: Service) -> None:
    good, bad = Display(service), Link(service)
    bad.follow()
    with contextlib.suppress(OSError):
        for _ in range(BURST * 20):
            bad.send("9")
    until(bad.is_cut_off, "the flood ends", AT_ONCE_S)
    service.ring_in("1")
    same(service, good)
    bad.close()
    good.close()


@pytest.mark.timeout(240)
def test_a_display_that_does_not_read_is_cut_off_and_the_others_go_on(service: Service) -> None:
    """What it does not take piles up for it alone, and only so far."""
    good, slow = Display(service), Link(service, buffer=4096)
    slow.follow()
    big = {"drinks": [{"line": ORDER["drinks"][0]["line"], "quantity": 50}] * 4}
    service.ring_in("big", big)
    rounds = 0

    def piled_up() -> bool:
        nonlocal rounds
        # It goes on answering pings, so that only what piles up can end it.
        with contextlib.suppress(OSError):
            slow.send("3")
        for _ in range(25):
            rounds += 1
            step = (rounds - 1) // 2 % 200 + 1
            path = f"/api/drinks/1.{step}/{'bump' if rounds % 2 else 'recall'}"
            assert service.call("POST", path)[0] == 200
        return "messages behind" in service.said()

    until(piled_up, "the slow display is cut off", 120)
    assert rounds < QUEUE_LONGEST * 20
    same(service, good)
    until(slow.is_cut_off, "its connection ends")
    slow.close()
    good.close()
