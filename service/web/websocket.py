"""The websocket under Socket.IO, with bounds.

What the library does by itself would not do on a bar's wireless: it takes messages of any size into
memory, may send only part of a large one when the network is slow, and leaves a connection that was
closed from this side open until the other side moves.
"""

from __future__ import annotations

import contextlib
import logging
import socket
import threading
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from time import monotonic
from typing import Any, ClassVar
from weakref import WeakKeyDictionary

import simple_websocket  # type: ignore[import-untyped]
from gevent import Timeout
from gevent.pywsgi import WSGIHandler
from simple_websocket.errors import ConnectionClosed  # type: ignore[import-untyped]

LOG = logging.getLogger("levelscoop")

MESSAGE_LARGEST = 16 * 1024
"""The largest message taken from a display (bytes); ours are under a hundred."""

BURST, A_SECOND = 40, 10.0
"""Messages that a display may send at once, and per second after that. Ours send one every few seconds."""


PATIENCE_S = 60.0
"""How long a connection may say nothing, or take to say what it wants (s)."""


@dataclass(slots=True)
class Allowance:
    """How many messages may still be taken: filled up as time goes by, never above ``BURST``."""

    left: float
    at: float

    def spend(self, now: float) -> bool:
        """Take one off; False when there is none left. ``now`` in seconds."""
        self.left = min(float(BURST), self.left + max(0.0, now - self.at) * A_SECOND)
        self.at = now
        if self.left < 1.0:
            return False
        self.left -= 1.0
        return True


class WholeSends:
    """A socket whose ``send`` sends all of it, one sender at a time."""

    def __init__(self, inner: socket.socket) -> None:
        self._inner = inner
        self._turn = threading.Lock()

    def send(self, data: bytes) -> int:
        """Send all of ``data``, waiting where the network does."""
        with self._turn:
            self._inner.sendall(data)
        return len(data)

    def recv(self, most: int) -> bytes:
        """What has come, at most so many bytes; empty at the end."""
        return self._inner.recv(most)

    def end(self) -> None:
        """End the connection in both directions; whoever waits on it wakes up."""
        with contextlib.suppress(OSError):
            self._inner.shutdown(socket.SHUT_RDWR)

    def close(self) -> None:
        """Let go of the socket."""
        self._inner.close()


class _Server(simple_websocket.Server):  # type: ignore[misc]
    """One connection of ours."""

    def handshake(self) -> None:
        # A display may well be silent for longer than a request may take; pings tell whether it is there.
        self.__dict__["sock"].settimeout(None)
        self.sock: Any = WholeSends(self.__dict__["sock"])
        super().handshake()

    def close(self, reason: int | None = None, message: str | None = None) -> None:
        with contextlib.suppress(OSError):
            super().close(reason, message)
        self.end()

    def end(self) -> None:
        self.connected = False
        self.sock.end()
        self.event.set()


class BoundedWebSocket:
    """What Engine.IO asks of a websocket: called as a WSGI application, it runs the connection."""

    _open: ClassVar[WeakKeyDictionary[object, BoundedWebSocket]] = WeakKeyDictionary()

    def __init__(self, handler: Callable[[BoundedWebSocket], Any], server: object) -> None:
        del server
        self._handler = handler

    def __call__(self, environ: dict[str, Any], start_response: object) -> Iterable[bytes]:
        """Run one connection to its end."""
        self._allowance = Allowance(BURST, monotonic())
        self._ws = _Server(environ, max_message_size=MESSAGE_LARGEST)
        # The handler is a method of the client's Engine.IO socket, by which ``cut`` finds us.
        self._open[getattr(self._handler, "__self__", self)] = self
        try:
            self._handler(self)
        finally:
            self._ws.end()
        return []

    def send(self, message: str | bytes) -> None:
        """Send a message; OSError when the connection has ended."""
        try:
            self._ws.send(message)
        except ConnectionClosed as error:
            raise OSError("the connection has ended") from error

    def wait(self) -> str | bytes | None:
        """The next message; None when the connection has ended, or is ended because too many came."""
        try:
            received: str | bytes | None = self._ws.receive()
        except ConnectionClosed:
            return None
        if not self._allowance.spend(monotonic()):
            LOG.warning("a display was cut off: it sent too many messages")
            self._ws.end()
            return None
        return received

    def close(self) -> None:
        """Close in order."""
        if self._ws.connected:
            self._ws.close()

    @classmethod
    def cut(cls, client: object) -> None:
        """Cut the connection of an Engine.IO socket at once, even while something is being sent on it."""
        connection = cls._open.get(client)
        if connection is not None:
            connection._ws.end()


class Handler(WSGIHandler):
    """One connection, which does not wait for ever on who says nothing, or only half of it.

    The next request's line and headers must be in within ``PATIENCE_S``, and no wait within its body may be
    longer. A connection that was a websocket is closed at its end, instead of being read on as HTTP.
    """

    patience_s = PATIENCE_S

    def handle_one_request(self) -> Any:  # noqa: ANN401 - as the library has it
        """Read a request and answer it."""
        self.socket.settimeout(self.patience_s)
        self._limit = Timeout.start_new(self.patience_s, TimeoutError("the request did not come in time"))
        try:
            return super().handle_one_request()
        finally:
            self._limit.close()

    def read_request(self, raw_requestline: str) -> Any:  # noqa: ANN401
        """Read the headers; from then on the request may take its time."""
        try:
            return super().read_request(raw_requestline)
        finally:
            self._limit.close()

    def handle_one_response(self) -> None:
        """Answer one request."""
        super().handle_one_response()
        if self.environ and self.environ.get("HTTP_UPGRADE", "").lower() == "websocket":
            self.close_connection = True
