"""Ring-in acknowledged, against the bare append script on the same Redis."""

from __future__ import annotations

import http.client
import json
import tempfile
import uuid
from pathlib import Path

from service.books.wire import Menu
from service.journal.journal import Key
from service.journal.redis import RedisJournal, client
from service.rush.customers import rush
from tests.bench.figures import Figure, figure, in_turn, scaled
from tests.bench.redis_alone import redis_alone
from tests.running import RunningShop

ROUNDS = 300


def figures() -> list[Figure]:
    """One figure: milliseconds from sending an order to its receipt, over a kept connection."""
    with (
        tempfile.TemporaryDirectory() as folder,
        redis_alone(Path(folder)) as url,
        RunningShop(Path(folder) / "data", REDIS_URL=url) as shop,
    ):
        menu = Menu.model_validate(shop.get("/api/menu"))
        orders = [
            json.dumps({"drinks": [{"line": {"drink": arrival.order.drinks[0].line.drink}}]}).encode()
            for arrival in rush(menu, 1, ROUNDS, 60.0)
        ]
        line = http.client.HTTPConnection("127.0.0.1", shop.port)
        bare = _BareScript(url)

        def ring_in(turn: int) -> None:
            headers = {"Content-Type": "application/json", "Idempotency-Key": str(uuid.uuid4())}
            line.request("POST", "/api/orders", orders[turn % len(orders)], headers)
            answer = line.getresponse()
            body = answer.read()
            if answer.status != 201:
                raise RuntimeError(f"ring-in answered {answer.status}: {body.decode()}")

        ours, floor = in_turn(ROUNDS, ring_in, bare.append)
        line.close()
    floor_is = "the append script alone, same Redis, same record"
    return [figure("ring-in acknowledged", "ms", floor_is, scaled(ours, 1e3), scaled(floor, 1e3))]


class _BareScript:
    """The script by itself, appending to a store of its own what the shop last appended to its."""

    def __init__(self, url: str) -> None:
        self._redis = client(url=url)
        self._journal = RedisJournal(self._redis, self._redis, "bench")
        self._shop = RedisJournal(self._redis, self._redis, "main")
        self._position = 0

    def append(self, turn: int) -> None:
        if turn == 0:
            self._record = self._shop.read(0, 10)[-1].record
        key = Key(str(uuid.uuid4()), "fingerprint")
        self._journal.append(self._position, [self._record], key, "answer")
        self._position += 1
