"""A whole shop with its owner's desk in this process; its proofs run in a process of their own, as always."""

from __future__ import annotations

import threading
from pathlib import Path
from typing import Any

from service.app.assemble import open_desk, web
from service.bench.desk import OwnerDesk
from service.books.shelf import BookShelf
from service.journal.memory import MemoryJournal
from service.orders.desk import make_desk
from tests.proof.books import GOOD, files, write

NOON = 1_760_000_000_000
LIMIT_S = 60.0


class OwnersShop:
    """A shop on a book folder of its own. ``close`` it in the end."""

    def __init__(self, root: Path, journal: MemoryJournal | None = None, **drinks: str) -> None:
        self.folder = root / "book"
        if not self.folder.exists():
            write(self.folder, files(**(drinks or {"iced": GOOD})))
        self.journal = journal or MemoryJournal()
        self.damage: list[Exception] = []
        self.desk = make_desk(
            self.journal, BookShelf(self.folder, self.journal), lambda: NOON, self.damage.append
        )
        self.owner = OwnerDesk(self.desk, self.folder, root / "data")
        self.proved = threading.Condition()
        self.ended: list[tuple[str, bool]] = []
        inner = self.owner.proved

        def proved(book: Any, holds: bool) -> None:  # noqa: ANN401
            inner(book, holds)
            with self.proved:
                self.ended.append((book.version, holds))
                self.proved.notify_all()

        self.owner.proved = proved  # type: ignore[method-assign]
        self.app, _ = web(self.desk, "threading", Path("/nowhere"), self.owner, False)
        open_desk(self.desk, self.owner.open_folder)
        self.desk.follower.reachable.set()
        self.client = self.app.test_client()

    def close(self) -> None:
        self.owner.close()

    def wait_proved(self, version: str) -> bool:
        """Whether the proof of a version holds, once it is complete."""
        with self.proved:
            assert self.proved.wait_for(lambda: version in dict(self.ended), LIMIT_S), "no proof came"
            return dict(self.ended)[version]

    def get(self, path: str, status: int = 200) -> Any:  # noqa: ANN401
        found = self.client.get(path)
        assert found.status_code == status, found.text
        return found.json

    def send(self, path: str, body: object, status: int = 200, method: str = "POST") -> Any:  # noqa: ANN401
        headers = {"Idempotency-Key": "k1"} if path == "/api/orders" else {}
        found = self.client.open(path, method=method, json=body, headers=headers)
        assert found.status_code == status, found.text
        return found.json

    def save(self, value: str, path: list[str | int], status: int = 200, **more: object) -> Any:  # noqa: ANN401
        body = {
            "edits": [{"file": "drinks/iced.toml", "path": path, "value": value}],
            "note": "for the test",
            "base_version": self.get("/api/owner/book")["version"],
        }
        return self.send("/api/owner/save", {**body, **more}, status)
