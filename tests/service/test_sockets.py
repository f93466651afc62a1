"""Displays in this process: joining, resuming, and being shown the door."""

from __future__ import annotations

import random
from collections.abc import Callable
from typing import Any

import pytest
from flask_socketio.test_client import SocketIOTestClient

from service.orders import wire as orders_wire
from service.orders.recent import Recent
from service.web.websocket import A_SECOND, BURST, Allowance
from tests.service.samples import DAY, SECOND
from tests.service.shop import DRINK, OTHER, Shop


class Display:
    """A display that folds what it gets, exactly as the wire says it should."""

    def __init__(self, shop: Shop) -> None:
        self.shop = shop
        self.store: str | None = None
        self.position: int | None = None
        self.tickets: dict[str, dict[str, Any]] = {}
        self.builds: dict[str, Any] = {}
        self.sold_out: list[str] = []
        self.handed: list[orders_wire.HandedOff] = []
        self.book = ""
        self.snapshots = 0
        self.struck: list[str] = []
        self.connect()

    def connect(self) -> None:
        self.client: SocketIOTestClient = self.shop.sockets.io.test_client(self.shop.app)
        self.acknowledged = self.client.emit(
            "follow", {"since": self.position, "store": self.store}, callback=True
        )

    def drop(self) -> None:
        self.take()
        self.client.disconnect()

    def take(self) -> None:
        for message in self.client.get_received():
            (body,) = message["args"]
            if message["name"] == "snapshot":
                told = orders_wire.Snapshot.model_validate(body)
                self.tickets, self.builds = {}, {}
                self.snapshots += 1
                self.sold_out, self.book, self.handed = told.sold_out, told.book, told.handed
            else:
                change = orders_wire.Change.model_validate(body)
                assert change.after == self.position, "a gap or something twice"
                assert set(change.struck) <= set(change.gone)
                self.struck += change.struck
                for gone in change.gone:
                    self.tickets.pop(gone, None)
                self.sold_out = self.sold_out if change.sold_out is None else change.sold_out
                self.handed = self.handed if change.handed is None else change.handed
                self.book = change.book or self.book
                # Builds that nothing needs are let go of, as screens do: one that comes back must be sent.
                kept = [ticket for id, ticket in self.tickets.items() if id not in change.gone]
                used = {drink["build"] for ticket in kept for drink in ticket["drinks"]}
                self.builds = {id: build for id, build in self.builds.items() if id in used}
            self.store, self.position = body["store"], body["position"]
            self.builds |= body["builds"]
            self.tickets |= {ticket["id"]: ticket for ticket in body["tickets"]}

    def shows(self) -> dict[str, Any]:
        self.take()
        needed = {drink["build"] for ticket in self.tickets.values() for drink in ticket["drinks"]}
        return {
            "store": self.store,
            "position": self.position,
            "book": self.book,
            "sold_out": self.sold_out,
            "handed": [each.model_dump() for each in self.handed],
            "tickets": sorted(self.tickets.values(), key=lambda ticket: int(ticket["id"])),
            "builds": {id: self.builds[id] for id in sorted(needed)},
        }


def truth(shop: Shop) -> dict[str, Any]:
    found = shop.get("/api/queue")
    del found["now"]
    found["builds"] = dict(sorted(found["builds"].items()))
    return dict(found)


@pytest.fixture
def shop() -> Shop:
    return Shop()


def test_a_display_joins_with_the_whole_and_gets_each_change(shop: Shop) -> None:
    shop.ring_in()
    display = Display(shop)
    assert display.acknowledged == {"position": 2}
    assert display.shows() == truth(shop)
    shop.ring_in({"drink": OTHER})
    shop.post("/api/drinks/1.1/start", {"step": 1})
    shop.post("/api/sold-out", {"item": OTHER, "sold_out": True})
    assert display.shows() == truth(shop)
    shop.post("/api/tickets/1/bump")
    shop.post("/api/tickets/1/hand-off")
    assert display.shows() == truth(shop)
    assert display.snapshots == 1


def test_a_display_is_told_which_of_the_tickets_gone_are_void(shop: Shop) -> None:
    for _ in range(3):
        shop.ring_in()
    display = Display(shop)
    shop.post("/api/tickets/1/void", {"reason": "left"})
    shop.post("/api/tickets/2/bump")
    shop.post("/api/tickets/2/hand-off")
    display.take()
    assert display.struck == ["1"]
    display.drop()
    shop.post("/api/drinks/3.1/void", {"reason": "spilt"})
    display.connect()
    assert display.shows() == truth(shop)
    assert display.struck == ["1", "3"]


def test_a_display_is_told_what_was_handed_off_and_taken_back_with_its_build(shop: Shop) -> None:
    display = Display(shop)
    shop.ring_in(name="Inês")
    shop.ring_in({"drink": OTHER})
    for order in "12":
        shop.post(f"/api/tickets/{order}/bump")
        shop.post(f"/api/tickets/{order}/hand-off")
    assert display.shows() == truth(shop)
    assert [(each.id, each.drinks) for each in display.handed] == [("2", 1), ("1", 1)]
    display.drop()
    assert shop.post("/api/tickets/1/take-back")["changed"] is True
    display.connect()
    assert display.shows() == truth(shop)
    assert [ticket["state"] for ticket in display.tickets.values()] == ["ready"]
    assert [each.id for each in display.handed] == ["2"]
    shop.time += DAY
    shop.ring_in()
    assert display.shows() == truth(shop)
    assert display.handed == []
    assert display.snapshots == 1


def test_a_display_that_was_away_gets_the_rest(shop: Shop) -> None:
    display = Display(shop)
    display.drop()
    shop.ring_in()
    shop.ring_in({"drink": OTHER})
    shop.post("/api/tickets/1/void", {"reason": "left"})
    display.connect()
    assert display.shows() == truth(shop)
    assert display.snapshots == 1
    assert list(display.tickets) == ["2"]


def test_nothing_missed_is_told_as_nothing(shop: Shop) -> None:
    display = Display(shop)
    display.drop()
    display.connect()
    assert display.shows() == truth(shop)


@pytest.mark.parametrize("since", [10_000, 5_000_000_000])
def test_a_display_that_claims_to_be_ahead_gets_the_whole(shop: Shop, since: int) -> None:
    """As after a journal was lost and begun anew."""
    shop.ring_in()
    display = Display(shop)
    display.drop()
    display.position = since
    display.connect()
    assert display.shows() == truth(shop)
    assert display.snapshots == 2


@pytest.mark.parametrize("store", ["another", None])
def test_a_display_that_knows_another_journal_gets_the_whole(shop: Shop, store: str | None) -> None:
    """Its position would fit, but what it holds is of another shop, or of this one before a reset."""
    shop.ring_in()
    display = Display(shop)
    display.drop()
    display.store = store
    display.connect()
    assert display.shows() == truth(shop)
    assert display.snapshots == 2


def test_a_display_that_was_away_too_long_gets_the_whole(shop: Shop) -> None:
    recent = Recent(shop.desk.fold, kept=3)
    shop.ring_in()
    for step in (1, 2, 3):
        shop.post("/api/drinks/1.1/finish", {"steps": [step]})
    position = shop.desk.fold.state.position
    assert recent.since(position - 4) is None
    found = recent.since(position - 3)
    assert found is not None
    assert found.orders == ("1",)


@pytest.mark.parametrize("seed", range(4))
def test_displays_that_come_and_go_at_random_all_show_the_same(shop: Shop, seed: int) -> None:
    chance = random.Random(seed)
    displays = [Display(shop) for _ in range(3)]
    away: set[int] = set()
    acts: list[Callable[[str], object]] = [
        lambda order: shop.send(f"/api/tickets/{order}/bump"),
        lambda order: shop.send(f"/api/tickets/{order}/recall"),
        lambda order: shop.send(f"/api/tickets/{order}/hand-off"),
        lambda order: shop.send(f"/api/drinks/{order}.1/start", {"step": 1}),
        lambda order: shop.send(f"/api/tickets/{order}/void", {"reason": "left"}),
        lambda order: shop.send("/api/sold-out", {"item": OTHER, "sold_out": chance.random() < 0.5}),
    ]
    for _ in range(60):
        shop.time += SECOND
        if chance.random() < 0.4:
            shop.ring_in({"drink": DRINK, "sugar": chance.choice([0, 50, 100])})
        chance.choice(acts)(str(chance.randint(1, 12)))
        n = chance.randrange(3)
        if chance.random() < 0.3:
            if n in away:
                away.remove(n)
                displays[n].connect()
            else:
                away.add(n)
                displays[n].drop()
    for n in away:
        displays[n].connect()
    expected = truth(shop)
    assert [display.shows() for display in displays] == [expected] * 3


def test_the_clock_is_told(shop: Shop) -> None:
    display = Display(shop)
    assert display.client.emit("clock", callback=True) == {"now": shop.time}


# --- shown the door -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("event", "body"),
    [
        ("bump", {"drink": "1.1"}),
        ("follow", {"since": -1}),
        ("follow", {"since": "1"}),
        ("follow", {"from": 1}),
        ("follow", [1]),
    ],
)
def test_who_says_what_is_not_in_the_protocol_is_cut_off(shop: Shop, event: str, body: object) -> None:
    bad, good = Display(shop), Display(shop)
    bad.client.emit(event, body)
    assert not bad.client.is_connected()
    shop.ring_in()
    assert good.shows() == truth(shop)


def test_an_allowance_fills_up_as_time_goes_by() -> None:
    allowance = Allowance(BURST, 0.0)
    assert all(allowance.spend(0.0) for _ in range(BURST))
    assert not allowance.spend(0.0)
    assert allowance.spend(1.5 / A_SECOND)
    assert not allowance.spend(1.5 / A_SECOND)
    assert not allowance.spend(-100.0)
    assert sum(allowance.spend(1000.0) for _ in range(2 * BURST)) == BURST
