"""What we reach into of Socket.IO and Engine.IO beyond what they document, all in this one place.

Neither lets one choose the websocket by an option, end a connection from this side at once, or bound what
waits to be sent. ``tests/service/test_engine.py`` names each part that is used, and ``pyproject.toml`` bounds
their versions by what was tried.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from flask_socketio import SocketIO

from service.web.websocket import BoundedWebSocket


def use_bounded_websockets(io: SocketIO) -> None:
    """Have every connection run on our websocket."""
    engine: Any = io.server.eio
    engine._async = {**engine._async, "websocket": BoundedWebSocket}


def end_connection(io: SocketIO, client: str) -> None:
    """Disconnect a Socket.IO client and end its connection once what was sent to it is out.

    Socket.IO leaves it to the client to go; one that is cut off is not trusted to.
    """
    server: Any = io.server
    # Looked up first: once disconnected, a client has no name any more.
    socket = server.eio.sockets.get(server.manager.eio_sid_from_sid(client, "/"))
    server.disconnect(client, namespace="/")
    if socket is not None:
        socket.close(wait=False)


def cut_slow(io: SocketIO, room: str, longest: int) -> Iterator[int]:
    """Cut off every client of a room for which more than ``longest`` messages wait, and let go of them; gives
    how many waited, for each.
    """
    server: Any = io.server
    for _, transport in list(server.manager.get_participants("/", room)):
        socket = server.eio.sockets.get(transport)
        if socket is None or socket.closed or socket.queue.qsize() <= longest:
            continue
        yield socket.queue.qsize()
        while not socket.queue.empty():
            socket.queue.get(block=False)
            socket.queue.task_done()
        socket.close(wait=False, abort=True)
        BoundedWebSocket.cut(socket)
