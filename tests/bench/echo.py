"""A bare Socket.IO echo on the same stack as the service: the least a message can take to the page and back.

``python -m tests.bench.echo PORT``; says ``listening`` once it does, and ends when it is told to (SIGTERM).
"""

from __future__ import annotations

from gevent import monkey

monkey.patch_all()

import socket
import sys

from flask import Flask
from flask_socketio import SocketIO
from gevent.pywsgi import WSGIServer


def main() -> None:
    """Serve until terminated."""
    app = Flask("echo")
    hub = SocketIO(app, async_mode="gevent", cors_allowed_origins="*", transports=["websocket"])

    hub.on_event("echo", lambda message: message)
    listener = socket.create_server(("127.0.0.1", int(sys.argv[1])))
    listener.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
    server = WSGIServer(listener, app, log=None)
    print("listening", flush=True)
    server.serve_forever()


if __name__ == "__main__":
    main()
