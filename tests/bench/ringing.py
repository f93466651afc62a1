"""Ring-in acknowledged, against the bare append script and a bare Flask route on the same Redis."""

from __future__ import annotations

import http.client
import json
import subprocess
import sys
import tempfile
import uuid
from collections.abc import Callable, Iterator
from contextlib import contextmanager
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
    """Milliseconds from sending an order to its receipt, over a kept connection, against two floors."""
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
        ring_in = _posting(shop.port, "/api/orders", orders)
        script = _BareScript(url)
        ours, floor = in_turn(ROUNDS, ring_in, script.append)
        found = [("the append script alone, same Redis, same record", ours, floor)]
        with _bare_flask(url) as port:
            ours, floor = in_turn(ROUNDS, ring_in, _posting(port, "/orders", orders))
        found.append(("a bare Flask route that appends with the same script", ours, floor))
    return [
        figure("ring-in acknowledged", "ms", floor_is, scaled(ours, 1e3), scaled(floor, 1e3))
        for floor_is, ours, floor in found
    ]


def _posting(port: int, path: str, orders: list[bytes]) -> Callable[[int], None]:
    """What posts the order of a turn over one kept connection."""
    line = http.client.HTTPConnection("127.0.0.1", port)

    def post(turn: int) -> None:
        headers = {"Content-Type": "application/json", "Idempotency-Key": str(uuid.uuid4())}
        line.request("POST", path, orders[turn % len(orders)], headers)
        answer = line.getresponse()
        body = answer.read()
        if answer.status != 201:
            raise RuntimeError(f"{path} answered {answer.status}: {body.decode()}")

    return post


@contextmanager
def _bare_flask(url: str) -> Iterator[int]:
    """The port of a bare Flask route of its own process."""
    asked = [sys.executable, "-m", "tests.bench.bare_flask", url]
    with subprocess.Popen(asked, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as bare:
        assert bare.stdin is not None
        assert bare.stdout is not None
        try:
            yield int(bare.stdout.readline())
        finally:
            bare.stdin.close()


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
