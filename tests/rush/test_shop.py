"""A rush never leaves this machine, and bears with a shop that is away for a moment."""

from __future__ import annotations

import threading
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import ClassVar

import pytest

from service.books.wire import LineIn
from service.money.wire import Totals
from service.orders.wire import DrinkIn, Receipt, RingIn
from service.rush.shop import Away, NotLoopback, Shop, loopback_only
from tests.running import free_port


@pytest.mark.parametrize("url", ["http://127.0.0.1:8080", "http://127.9.9.9:1/", "http://[::1]:8080"])
def test_loopback_is_accepted(url: str) -> None:
    assert loopback_only(url) == url.rstrip("/")


@pytest.mark.parametrize(
    "url", ["http://10.0.0.7:8080", "http://0.0.0.0:8080", "http://192.0.2.1", "http://[2001:db8::1]:80"]
)
def test_any_other_address_is_refused(url: str) -> None:
    with pytest.raises(NotLoopback, match="this machine"):
        loopback_only(url)


@pytest.mark.parametrize("url", ["https://127.0.0.1:8080", "127.0.0.1:8080", "ftp://127.0.0.1", ""])
def test_what_is_no_http_address_is_refused_with_one_that_is(url: str) -> None:
    with pytest.raises(NotLoopback, match=r"http://127\.0\.0\.1:8080"):
        loopback_only(url)


class Flaky(BaseHTTPRequestHandler):
    """A shop that is away for the first two tries, and notes the keys it was sent."""

    keys: ClassVar[list[str]] = []

    def do_POST(self) -> None:
        self.rfile.read(int(self.headers["Content-Length"]))
        self.keys.append(self.headers["Idempotency-Key"])
        away = len(self.keys) < 3
        body = b"{}" if away else RECEIPT.model_dump_json().encode()
        self.send_response(503 if away else 201)
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, format: str, *args: object) -> None:
        """Keep the tests' output to themselves."""


RECEIPT = Receipt(
    id="1",
    number=1,
    name="",
    day="2026-03-02",
    rung_at=0,
    lines=[],
    totals=Totals(currency="EUR", net=0, tax=0, gross=0, tax_name="VAT", tax_percent="10", tax_included=True),
)


def test_a_ring_in_is_sent_again_under_its_own_key_while_the_shop_is_away(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("service.rush.shop.AGAIN_AFTER_S", (0.0, 0.0, 0.0))
    with ThreadingHTTPServer(("127.0.0.1", 0), Flaky) as server:
        thread = threading.Thread(target=server.serve_forever)
        thread.start()
        try:
            shop = Shop(f"http://127.0.0.1:{server.server_port}")
            assert shop.ring_in(RingIn(drinks=[DrinkIn(line=LineIn(drink="taro"))])) == RECEIPT
        finally:
            server.shutdown()
            thread.join()
    assert len(Flaky.keys) == 3
    assert len(set(Flaky.keys)) == 1


def test_a_shop_that_is_not_there_is_away_not_a_traceback() -> None:
    with pytest.raises(Away, match="does not answer"):
        Shop(f"http://127.0.0.1:{free_port()}").menu()
