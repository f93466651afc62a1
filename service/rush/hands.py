"""Hands that work the bar during a rush: take the oldest drink, work its stations, bump, hand off."""

from __future__ import annotations

import threading
from itertools import groupby

from recipes.model import Step
from service.books.wire import Build
from service.orders.wire import QueueDrink, Snapshot
from service.rush.shop import Away, Refused, Shop

UNTIMED_STEP_S = 1.5
"""How long a scoop or a pour takes a practised hand; invented for the demo."""

CALL_OUT_S = 4.0
"""How long a finished ticket stands before the customer takes it; invented for the demo."""


class Crew:
    """Some hands at one bar. ``speed`` 2 works, and lets timers run, twice as fast as life."""

    def __init__(self, shop: Shop, hands: int, speed: float, stop: threading.Event) -> None:
        self._shop, self._speed, self._stop = shop, speed, stop
        self._claims: set[str] = set()
        self._lock = threading.Lock()
        self._threads = [threading.Thread(target=self._work, name=f"hand {n + 1}") for n in range(hands)]

    def start(self) -> None:
        """All hands to the bar."""
        for thread in self._threads:
            thread.start()

    def join(self) -> None:
        """Wait until every hand has put down its drink."""
        for thread in self._threads:
            thread.join()

    def _wait(self, seconds: float) -> bool:
        """Let time pass as the rush counts it; True when told to stop."""
        return self._stop.wait(seconds / self._speed)

    def _work(self) -> None:
        while not self._stop.is_set():
            try:
                if not self._next_drink():
                    self._wait(1.0)
            except Away:
                self._wait(1.0)

    def _next_drink(self) -> bool:
        """Make the oldest drink that no other hand is at; False when there is none."""
        queue = self._shop.queue()
        self._hand_off_ready(queue)
        drink = self._claim(queue)
        if drink is None:
            return False
        try:
            self._make(drink, queue.builds[drink.build])
        except Refused:
            pass  # somebody at a screen was quicker: voided, or bumped and handed off
        finally:
            # A drink that is recalled later can be taken up again.
            with self._lock:
                self._claims.discard(drink.id)
        return True

    def _claim(self, queue: Snapshot) -> QueueDrink | None:
        with self._lock:
            for ticket in queue.tickets:
                for drink in ticket.drinks:
                    if drink.state in ("waiting", "making") and drink.id not in self._claims:
                        self._claims.add(drink.id)
                        return drink
        return None

    def _make(self, drink: QueueDrink, build: Build) -> None:
        for _, cell in groupby(build.steps, key=lambda step: step.station):
            for step in cell:
                if self._do(drink.id, step):
                    return
        self._shop.tell(f"drinks/{drink.id}/bump")

    def _do(self, drink: str, step: Step) -> bool:
        """One step, its timer started first if it has one; True when told to stop."""
        if step.duration is not None:
            self._shop.tell(f"drinks/{drink}/start", {"step": step.number})
        if self._wait(step.duration.low_s if step.duration else UNTIMED_STEP_S):
            return True
        self._shop.tell(f"drinks/{drink}/finish", {"steps": [step.number]})
        return False

    def _hand_off_ready(self, queue: Snapshot) -> None:
        for ticket in queue.tickets:
            waited_s = (queue.now - (ticket.ready_at or queue.now)) / 1000
            if ticket.state == "ready" and waited_s * self._speed >= CALL_OUT_S:
                try:
                    self._shop.tell(f"tickets/{ticket.id}/hand-off")
                except Refused:
                    continue  # another hand gave it out
