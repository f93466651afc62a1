"""Displays over Socket.IO: each joins from the position it has seen and gets the rest, or the whole.

Up: ``follow`` (Follow) and ``clock``; down: ``snapshot`` and ``change``. Anything else, or too much of it,
ends the connection. Only websockets: nothing needs to stick to a process, and a message is never held for
a poll that does not come.
"""

from __future__ import annotations

import logging
from typing import Any

import flask
from flask import Flask
from flask_socketio import SocketIO, join_room
from pydantic import ValidationError

from service.orders import telling, wire
from service.orders.desk import Desk
from service.orders.subject import OrdersMoved
from service.orders.views import touched
from service.web.engine import cut_slow, end_connection, use_bounded_websockets
from service.web.websocket import MESSAGE_LARGEST
from service.wire import Wire

LOG = logging.getLogger("levelscoop")

PATH = "/socket.io"
FOLLOWERS = "followers"

QUEUE_LONGEST = 200
"""How many messages may wait for one display. One that is further behind is cut off; it will resume."""

PING_S, PING_PATIENCE_S = 5, 5


class Sockets:
    """The socket side of a desk. Listens to the fold and tells all that follow."""

    def __init__(self, app: Flask, desk: Desk, async_mode: str) -> None:
        self._desk = desk
        self.io = SocketIO(
            app,
            async_mode=async_mode,
            transports=["websocket"],
            async_handlers=False,
            max_http_buffer_size=MESSAGE_LARGEST,
            ping_interval=PING_S,
            ping_timeout=PING_PATIENCE_S,
            # Whose page it comes from is checked by guard.SameOrigin, which stands in front.
            cors_allowed_origins="*",
        )
        use_bounded_websockets(self.io)
        self.io.on_event("follow", self._follow)
        self.io.on_event("clock", self._clock)
        self.io.on_event("*", self._unknown)
        desk.fold.listen(self._moved)

    def _follow(self, asked: object = None) -> dict[str, int] | None:
        """Send what the display has not seen, and everything from then on: no gap, nothing twice."""
        try:
            seen = wire.Follow.model_validate({} if asked is None else asked, strict=True)
        except ValidationError as error:
            self._cut_off(f"sent a wrong follow: {error.errors(include_url=False)[0]['msg']}")
            return None
        desk = self._desk
        # While the turn is held nothing moves, so the answer and the first change after it fit together.
        with desk.fold.turn:
            state = desk.fold.state
            store, now = desk.fold.store, desk.now()
            # Positions of another journal tell nothing, even where they would fit.
            since = seen.since if seen.store == store else None
            what = None if since is None else desk.recent.since(since)
            if what is None or since is None:
                event, message = "snapshot", _plain(telling.snapshot(store, state, desk.builds, now))
            else:
                event, message = "change", _plain(telling.change(store, since, state, what, desk.builds, now))
            self.io.emit(event, message, to=flask.request.sid)  # type: ignore[attr-defined]
            join_room(FOLLOWERS)
        return {"position": state.position}

    def _clock(self, *_: object) -> dict[str, int]:
        return {"now": self._desk.now()}

    def _unknown(self, event: object = "", *_: object) -> None:
        self._cut_off(f"sent an unknown event {str(event)[:40]!r}")

    def _cut_off(self, why: str) -> None:
        LOG.warning("a display was cut off: it %s", why)
        end_connection(self.io, flask.request.sid)  # type: ignore[attr-defined]

    def _moved(self, moved: OrdersMoved) -> None:
        desk = self._desk
        self._drop_slow()
        what = touched(moved.events)
        store, after = desk.fold.store, moved.before.position
        change = telling.change(store, after, moved.after, what, desk.builds, desk.now())
        self.io.emit("change", _plain(change), to=FOLLOWERS)

    def _drop_slow(self) -> None:
        """Cut off every display that has let too much pile up, and let go of the pile.

        Socket.IO bounds what it receives but not what it sends, so the length of each client's queue is
        looked at here before more is put on it.
        """
        for waiting in cut_slow(self.io, FOLLOWERS, QUEUE_LONGEST):
            LOG.warning("a display was cut off: it is %d messages behind", waiting)


def _plain(message: Wire) -> dict[str, Any]:
    return message.model_dump(mode="json")
