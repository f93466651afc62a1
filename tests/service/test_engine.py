"""The undocumented parts of Socket.IO, Engine.IO and its websocket that we stand on, each by its name: after
an upgrade of theirs this says what is gone, before a bar finds out."""

from __future__ import annotations

import inspect

import engineio
import simple_websocket  # type: ignore[import-untyped]
import socketio
from engineio import base_server, socket
from flask import Flask
from flask_socketio import SocketIO

from service.web.engine import use_bounded_websockets
from service.web.websocket import BoundedWebSocket


def test_engine_io_takes_its_websocket_from_where_we_put_ours() -> None:
    io = SocketIO(Flask("none"), async_mode="threading")
    use_bounded_websockets(io)
    assert io.server.eio._async["websocket"] is BoundedWebSocket
    assert 'self.server._async["websocket"](' in inspect.getsource(socket.Socket).replace("'", '"')
    assert "_async" in inspect.getsource(base_server.BaseServer.__init__)


def test_a_clients_connection_is_found_by_its_socket_io_name() -> None:
    server = socketio.Server(async_mode="threading")
    assert isinstance(server.eio, engineio.Server)
    assert server.eio.sockets == {}
    for name in ("eio_sid_from_sid", "get_participants"):
        assert callable(getattr(server.manager, name))


def test_what_waits_for_a_client_is_a_queue_that_can_be_emptied() -> None:
    server = engineio.Server(async_mode="threading")
    found = socket.Socket(server, "sid")
    assert found.closed is False
    for name in ("qsize", "empty", "get", "task_done"):
        assert callable(getattr(found.queue, name))
    assert set(inspect.signature(found.close).parameters) >= {"wait", "abort"}


def test_the_websocket_keeps_its_socket_and_how_it_stands_where_we_look() -> None:
    source = inspect.getsource(simple_websocket.ws).replace("'", '"')
    parts = ("self.sock.send(", "self.sock.recv(", "self.sock.close()", "self.connected", "self.event.set()")
    for part in parts:
        assert part in source, part
    assert callable(simple_websocket.Server.handshake)
