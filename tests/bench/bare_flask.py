"""A bare Flask route that appends with the shop's own script: what a ring-in does beside it costs it more.

``python -m tests.bench.bare_flask URL`` prints its port.
"""

from __future__ import annotations

import json
import sys

from flask import Flask, Response, request
from gevent import get_hub, monkey


def main(url: str) -> None:
    """Serve until standard input ends."""
    monkey.patch_all()
    from gevent.pywsgi import WSGIServer

    from service.journal.journal import Key
    from service.journal.redis import RedisJournal, client
    from service.web.listener import listen

    redis = client(url=url)
    journal, shop = RedisJournal(redis, redis, "bare"), RedisJournal(redis, redis, "main")
    record = shop.read(0, 10)[-1].record
    app, position = Flask("bare"), 0

    @app.post("/orders")
    def append() -> Response:
        nonlocal position
        asked = json.loads(request.get_data())
        key = Key(request.headers["Idempotency-Key"], "fingerprint")
        journal.append(position, [record], key, "answer")
        position += 1
        return Response(json.dumps({"position": position, "drinks": len(asked["drinks"])}), 201)

    # The shop's own listener: without its TCP_NODELAY every answer waits 40 ms for an acknowledgement.
    with listen("127.0.0.1", 0) as listener:
        server = WSGIServer(listener, app, log=None)
        server.start()
        print(listener.getsockname()[1], flush=True)
        get_hub().threadpool.apply(sys.stdin.read)
        server.stop(timeout=0.1)


if __name__ == "__main__":
    main(sys.argv[1])
