"""Connections that say nothing, or half of something, or belong to a display that was switched off."""

from __future__ import annotations

import socket
import time
from collections.abc import Iterator

import pytest
from gevent import socket as cooperative
from gevent.pywsgi import WSGIServer

from service.web.listener import KEEPALIVE_S, listen
from service.web.websocket import Handler
from tests.service.shop import Shop

GIVEN_UP_S = 10.0
"""Far more than the patience below: a connection still open by then is one that is never dropped."""


class Impatient(Handler):
    patience_s = 0.2


@pytest.fixture
def port() -> Iterator[int]:
    """A server whose patience is short, on this thread's own loop."""
    listener = cooperative.socket(fileno=listen("127.0.0.1", 0).detach())
    server = WSGIServer(listener, Shop().app, log=None, error_log=None, handler_class=Impatient)
    server.start()
    yield listener.getsockname()[1]
    server.stop(timeout=0)


def said(port: int, *parts: bytes) -> bytes:
    """All that the server answers until it ends the connection. TimeoutError if it never does."""
    with cooperative.create_connection(("127.0.0.1", port)) as client:
        client.settimeout(GIVEN_UP_S)
        for part in parts:
            client.sendall(part)
        found = b""
        while part := client.recv(65536):
            found += part
        return found


def test_a_connection_that_says_nothing_is_dropped(port: int) -> None:
    assert said(port) == b""


@pytest.mark.parametrize(
    "half", [b"GET /api/que", b"GET /api/queue HTTP/1.1\r\n", b"GET / HTTP/1.1\r\nHost: l"]
)
def test_half_a_request_is_dropped(port: int, half: bytes) -> None:
    assert said(port, half) == b"" or said(port, half).startswith(b"HTTP/1.1 400")


def test_a_request_that_trickles_in_is_dropped_all_the_same(port: int) -> None:
    """Each byte comes in time, but the whole of it never would."""
    began = time.monotonic()
    with cooperative.create_connection(("127.0.0.1", port)) as client:
        client.settimeout(Impatient.patience_s / 4)
        client.sendall(b"GET /api/queue HTTP/1.1\r\nX-Long: ")
        while time.monotonic() - began < GIVEN_UP_S:
            try:
                client.sendall(b"x")
                if client.recv(65536).startswith(b"HTTP/1.1 400"):
                    return
            except TimeoutError:
                continue
            except OSError:
                return
    raise AssertionError("it was never dropped")


def test_half_a_body_is_dropped(port: int) -> None:
    head = (
        b"POST /api/quote HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n"
        b"Content-Length: 100\r\n\r\n"
    )
    assert said(port, head, b'{"drink":').startswith(b"HTTP/1.1 400")


def test_a_connection_is_kept_for_the_next_request_and_dropped_when_none_comes(port: int) -> None:
    ask = b"GET /healthz HTTP/1.1\r\nHost: localhost\r\n\r\n"
    assert said(port, ask, ask).count(b"HTTP/1.1 200 OK") == 2


def test_whoever_was_switched_off_is_noticed() -> None:
    """The system probes a silent connection; what is accepted inherits it from the listener (tcp(7))."""
    with listen("127.0.0.1", 0) as listener, socket.create_connection(listener.getsockname()):
        accepted, _ = listener.accept()
        with accepted:
            assert accepted.getsockopt(socket.SOL_SOCKET, socket.SO_KEEPALIVE) == 1
            options = (socket.TCP_KEEPIDLE, socket.TCP_KEEPINTVL, socket.TCP_KEEPCNT)
            found = tuple(accepted.getsockopt(socket.IPPROTO_TCP, option) for option in options)
            assert found == KEEPALIVE_S
