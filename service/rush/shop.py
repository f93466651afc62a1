"""A running shop, seen from outside: the few HTTP calls that a rush makes.

Loopback only: a rush is play, and must never reach a shop that sells.
"""

from __future__ import annotations

import http.client
import ipaddress
import json
import socket
import time
import urllib.error
import urllib.request
import uuid
from typing import Any
from urllib.parse import urlsplit

from service.books.wire import Menu
from service.orders.wire import Receipt, RingIn, Snapshot
from service.wire import Problem

PATIENCE_S = 10.0
"""How long one answer may take."""

AGAIN_AFTER_S = (0.2, 0.5, 1.0, 2.0, 4.0)
"""How long to wait before each further try of a ring-in."""


class NotLoopback(ValueError):
    """The address given is not this machine's own."""


class Away(Exception):
    """The shop did not answer, or could not: what was asked may have been done, or may not."""


class Refused(Exception):
    """The shop said no, with its problem document."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(problem.detail)
        self.problem = problem


def loopback_only(url: str) -> str:
    """The URL, if every address it resolves to is loopback; NotLoopback otherwise."""
    parts = urlsplit(url)
    if parts.scheme != "http" or not parts.hostname:
        raise NotLoopback(
            f"--url {url}: accepted is an http:// address of this machine, such as http://127.0.0.1:8080"
        )
    try:
        found = {info[4][0] for info in socket.getaddrinfo(parts.hostname, parts.port or 80)}
    except socket.gaierror as error:
        raise NotLoopback(f"--url {url}: no such host ({error.strerror})") from error
    if not all(ipaddress.ip_address(str(address).split("%")[0]).is_loopback for address in found):
        raise NotLoopback(
            f"--url {url}: a rush only plays into a shop on this machine (127.0.0.1, localhost)"
        )
    return url.rstrip("/")


class Shop:
    """A client of one shop; safe to use from several threads, since it holds no state."""

    def __init__(self, url: str) -> None:
        self.url = loopback_only(url)

    def menu(self) -> Menu:
        """What can be rung in."""
        return Menu.model_validate(self._call("GET", "/api/menu"))

    def queue(self) -> Snapshot:
        """The queue as it stands."""
        return Snapshot.model_validate(self._call("GET", "/api/queue"))

    def ring_in(self, order: RingIn) -> Receipt:
        """Ring in an order under a key of its own, again while the shop is away: it counts once.

        Raises Refused when it cannot be made, Away when the shop stays away.
        """
        body, key = order.model_dump(mode="json"), str(uuid.uuid4())
        for pause in AGAIN_AFTER_S:
            try:
                return Receipt.model_validate(self._call("POST", "/api/orders", body, key))
            except Away:
                time.sleep(pause)
        return Receipt.model_validate(self._call("POST", "/api/orders", body, key))

    def tell(self, path: str, body: dict[str, Any] | None = None) -> None:
        """Post one command of the bar or the hand-off. Raises Refused, Away."""
        self._call("POST", f"/api/{path}", body or {}, str(uuid.uuid4()))

    def _call(self, method: str, path: str, body: dict[str, Any] | None = None, key: str = "") -> Any:  # noqa: ANN401
        headers = {"Accept": "application/json"}
        data = None
        if body is not None:
            data = json.dumps(body).encode()
            headers |= {"Content-Type": "application/json", "Idempotency-Key": key}
        request = urllib.request.Request(self.url + path, data, headers, method=method)
        try:
            with urllib.request.urlopen(request, timeout=PATIENCE_S) as answer:
                return json.load(answer)
        except urllib.error.HTTPError as error:
            if error.code >= 500:
                raise Away(f"{self.url} answered {error.code}") from error
            raise Refused(_problem(error)) from error
        except (OSError, http.client.HTTPException) as error:
            raise Away(f"{self.url} does not answer ({error})") from error


def _problem(error: urllib.error.HTTPError) -> Problem:
    """The problem document of an error answer, or one made of its status line."""
    try:
        return Problem.model_validate_json(error.read())
    except ValueError:
        return Problem(type="about:blank", title=error.reason, status=error.code, detail=str(error))
