"""A whole shop in this process: the demo book, a journal on a list, a clock set by hand."""

from __future__ import annotations

import json
import uuid
from collections.abc import Callable, Collection, Mapping
from pathlib import Path
from typing import Any

from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from service.app.assemble import open_desk, web
from service.books.shelf import BookShelf
from service.host.settings import DEMO_BOOK
from service.journal.memory import MemoryJournal
from service.orders.desk import Desk, make_desk
from tests.service.samples import NOON

DRINK = "taro_milk_tea"
OTHER = "lemon_black_tea"


class Shop:
    """One process of a store. Give two the same journal and they are two services on one store."""

    def __init__(
        self,
        book: Path = DEMO_BOOK,
        journal: MemoryJournal | None = None,
        names: Collection[str] = (),
        open_with: Callable[[Desk], None] = open_desk,
    ) -> None:
        self.journal = journal or MemoryJournal()
        self.time = NOON
        self.damage: list[Exception] = []
        self.desk = make_desk(
            self.journal, BookShelf(book, self.journal), lambda: self.time, self.damage.append
        )
        self.app, self.sockets = web(self.desk, "threading", display=Path("/nowhere"), names=names)
        open_with(self.desk)
        self.desk.follower.reachable.set()
        self.client: FlaskClient = self.app.test_client()

    def get(self, path: str, status: int = 200) -> Any:  # noqa: ANN401
        found = self.client.get(path)
        assert found.status_code == status, found.text
        return found.json

    def send(self, path: str, body: object = None, key: str | None = None, **headers: str) -> TestResponse:
        data = None if body is None else json.dumps(body)
        sent = {"Idempotency-Key": key or str(uuid.uuid4()), **headers}
        return self.client.post(
            path, data=data, headers=sent, content_type=None if data is None else "application/json"
        )

    def post(self, path: str, body: object = None, status: int = 200, key: str | None = None) -> Any:  # noqa: ANN401
        found = self.send(path, body, key)
        assert found.status_code == status, found.text
        return found.json

    def ring_in(self, *lines: Mapping[str, object], name: str = "Ana", key: str | None = None) -> Any:  # noqa: ANN401
        drinks = [{"line": line} for line in lines or ({"drink": DRINK},)]
        return self.post("/api/orders", {"name": name, "drinks": drinks}, 201, key)
