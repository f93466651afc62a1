"""Tills on a journal in memory that can be made to go wrong, for the tests of handler and follower."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from service.journal.handler import Outcome
from service.journal.journal import Damaged, Key, Record, Unavailable, Unsure
from service.journal.memory import MemoryJournal
from service.orders import commands as ask
from service.orders.events import Event, RungIn
from service.orders.subject import ORDERS, OrdersFold, OrdersHandler, OrdersMoved
from tests.service.samples import NOON, ring

WAIT_S = 10.0


class Flaky(MemoryJournal):
    """A journal whose next appends can be made to go wrong in each way the real one can."""

    def __init__(self) -> None:
        super().__init__()
        self.before: list[str] = []
        self.away = False

    def append(
        self, expected: int, records: Sequence[Record], key: Key | None = None, answer: str = ""
    ) -> str | None:
        fate = self.before.pop(0) if self.before else "well"
        if fate == "refuse":
            raise Unavailable("no room")
        if fate == "lose":
            raise Unsure("cut off before")
        earlier = super().append(expected, records, key, answer)
        if fate == "lose answer":
            raise Unsure("cut off after")
        return earlier

    def answered(self, key: Key) -> str | None:
        if self.away:
            raise Unavailable("away")
        return super().answered(key)


class Till:
    """One process on a journal."""

    def __init__(
        self, journal: MemoryJournal, fetch: Callable[[Sequence[Event]], None] = lambda events: None
    ) -> None:
        self.journal = journal
        self.fold = OrdersFold(ORDERS, fetch)
        self.damage: list[Damaged] = []
        self.handler = OrdersHandler(journal, ORDERS, self.fold, lambda: NOON, self.damage.append)
        self.moves: list[OrdersMoved] = []
        self.fold.listen(self.moves.append)

    def ring_in(self, key: Key | None = None, command: ask.RingIn | None = None) -> Outcome[Event]:
        return self.handler.handle(command or ring(), answer, key)


def answer(events: tuple[Event, ...], position: int) -> str:
    orders = [event.order for event in events if isinstance(event, RungIn)]
    return f"order {orders} at {position}"


def length(journal: MemoryJournal) -> int:
    return len(journal.read(0, 10_000))
