"""What strangers send: refused quickly, in a problem document, without harm."""

from __future__ import annotations

import json
import socket
import time

import pytest

from service.web.listener import own_names
from service.wire import Problem
from tests.service.shop import DRINK, Shop

LIMIT_S = 0.05
"""A refusal takes no longer than this; the best of three, since other work runs on the machine."""


@pytest.fixture
def shop() -> Shop:
    return Shop()


ORDER = {"drinks": [{"line": {"drink": DRINK}}]}

BODIES: dict[str, tuple[bytes, int, str]] = {
    "10 MB": (b'{"drinks":"' + b"x" * 10_000_000 + b'"}', 413, "too-large"),
    "1,000 deep": (b'{"drinks":' * 1000 + b"1" + b"}" * 1000, 400, "too-deep"),
    "30,000 brackets": (b"[" * 30_000, 400, "too-deep"),
    "60,000 strings": (b'["' + b'","' * 20_000, 400, "not-json"),
    "NaN": (b'{"drinks":[{"line":{"drink":"x"},"quantity":NaN}]}', 400, "not-json"),
    "Infinity": (b'{"drinks":[{"line":{"drink":"x"},"quantity":-Infinity}]}', 400, "not-json"),
    "not UTF-8": (b'{"name":"\xff\xfe"}', 400, "not-json"),
    "UTF-16": ('{"name":"x"}'.encode("utf-16"), 400, "not-json"),
    "half a surrogate": (b'{"name":"\\ud800","drinks":[]}', 400, "not-json"),
    "not JSON": (b"drinks=1", 400, "not-json"),
    "cut off": (b'{"drinks":[', 400, "not-json"),
    "empty": (b"", 400, "not-json"),
    "5,000 digits": (b'{"drinks":[{"line":{"drink":"x"},"quantity":' + b"9" * 5000 + b"}]}", 400, "not-json"),
    "1e999": (b'{"drinks":[{"line":{"drink":"x"},"quantity":1e999}]}', 422, "wrong-fields"),
    "a list": (b"[]", 422, "wrong-fields"),
    "a text": (b'"drinks"', 422, "wrong-fields"),
    "null": (b"null", 422, "wrong-fields"),
}


@pytest.mark.parametrize("name", BODIES)
def test_a_body_that_is_no_order_is_refused_at_once(shop: Shop, name: str) -> None:
    data, status, code = BODIES[name]
    took = []
    for _ in range(3):
        began = time.perf_counter()
        answer = shop.client.post(
            "/api/orders", data=data, content_type="application/json", headers={"Idempotency-Key": "k"}
        )
        took.append(time.perf_counter() - began)
    assert (answer.status_code, answer.mimetype) == (status, "application/problem+json"), answer.text
    found = Problem.model_validate_json(answer.data)
    assert found.type == f"/problems/{code}"
    assert found.errors
    assert all(fault.field and fault.accepted for fault in found.errors)
    assert min(took) < LIMIT_S
    assert shop.ring_in()["number"] == 1


FIELDS: dict[str, tuple[object, str, str]] = {
    "quantity 0": (
        {"drinks": [{"line": {"drink": DRINK}, "quantity": 0}]},
        "drinks[0].quantity",
        "from 1 up",
    ),
    "quantity -1": ({"drinks": [{"line": {"drink": DRINK}, "quantity": -1}]}, "drinks[0].quantity", "from 1"),
    "quantity 10^9": (
        {"drinks": [{"line": {"drink": DRINK}, "quantity": 10**9}]},
        "drinks[0].quantity",
        "50",
    ),
    "quantity in words": (
        {"drinks": [{"line": {"drink": DRINK}, "quantity": "2"}]},
        "drinks[0].quantity",
        "whole",
    ),
    "quantity true": (
        {"drinks": [{"line": {"drink": DRINK}, "quantity": True}]},
        "drinks[0].quantity",
        "whole",
    ),
    "100 toppings": (
        {"drinks": [{"line": {"drink": DRINK, "toppings": [{"topping": "x"}] * 100}}]},
        "drinks[0].line.toppings",
        "at most 20",
    ),
    "an unknown modifier": (
        {"drinks": [{"line": {"drink": DRINK, "temperature": "warm"}}]},
        "drinks[0].line.temperature",
        "there are drink, size, sugar",
    ),
    "no drink": ({"drinks": [{"line": {}}]}, "drinks[0].line.drink", "missing"),
    "no drinks": ({"drinks": []}, "drinks", "1 or more"),
    "nothing": ({}, "drinks", "missing"),
    "a name that is no text": ({"name": 7, **ORDER}, "name", "a text"),
    "half a portion in words": (
        {"drinks": [{"line": {"drink": DRINK, "toppings": [{"topping": "x", "half": "yes"}]}}]},
        "drinks[0].line.toppings[0].half",
        "true or false",
    ),
}


@pytest.mark.parametrize("name", FIELDS)
def test_a_wrong_field_is_named_with_what_is_accepted(shop: Shop, name: str) -> None:
    body, field, accepted = FIELDS[name]
    answer = shop.send("/api/orders", body)
    assert answer.status_code == 422, answer.text
    faults = Problem.model_validate_json(answer.data).errors
    found = [fault for fault in faults if fault.field == field]
    assert found, faults
    assert accepted in found[0].accepted


def test_too_many_cups_in_all_are_refused(shop: Shop) -> None:
    answer = shop.send("/api/orders", {"drinks": [{"line": {"drink": DRINK}, "quantity": 50}] * 5})
    assert answer.status_code == 422
    assert "at most 200" in json.loads(answer.data)["detail"]


def test_a_body_needs_its_media_type(shop: Shop) -> None:
    answer = shop.client.post(
        "/api/quote", data="drink=taro", content_type="application/x-www-form-urlencoded"
    )
    assert (answer.status_code, answer.json["type"]) == (415, "/problems/wrong-media-type")  # type: ignore[index]
    (fault,) = Problem.model_validate_json(answer.data).errors
    assert (fault.field, fault.accepted) == ("Content-Type", "application/json")
    assert fault.value == "application/x-www-form-urlencoded"


@pytest.mark.parametrize(
    ("method", "path", "status"),
    [
        ("GET", "/api/nothing", 404),
        ("GET", "/problems/nothing", 404),
        ("GET", "/assets/../../../etc/passwd", 404),
        ("GET", "/api/orders/1", 404),
        ("DELETE", "/api/queue", 405),
        ("GET", "/api/quote", 405),
    ],
)
def test_even_a_wrong_address_is_answered_with_a_problem(
    shop: Shop, method: str, path: str, status: int
) -> None:
    answer = shop.client.open(path, method=method)
    assert (answer.status_code, answer.mimetype) == (status, "application/problem+json")
    found = Problem.model_validate_json(answer.data)
    assert found.status == status
    assert [fault.value for fault in found.errors] in ([path], [method])


def test_a_fault_of_ours_is_told_without_its_insides(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    def fault() -> int:
        raise RuntimeError("secret")

    monkeypatch.setattr(shop.app.extensions["history"], "day", lambda day: fault())
    answer = shop.client.get("/api/orders")
    assert (answer.status_code, answer.json["type"]) == (500, "/problems/internal")  # type: ignore[index]
    assert "secret" not in answer.text


# --- whose page it is -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    "origin",
    [
        "http://evil.example",
        "https://localhost.evil.example",
        "http://localhost:1234",
        "null",
        "file://localhost",
        "x",
        "http://[",
        "http://[::1",
    ],
)
def test_a_foreign_page_may_neither_command_nor_listen(shop: Shop, origin: str) -> None:
    answer = shop.send("/api/orders", ORDER, Origin=origin)
    assert (answer.status_code, answer.json["type"]) == (403, "/problems/foreign-origin")  # type: ignore[index]
    answer = shop.client.get("/socket.io/?EIO=4&transport=websocket", headers={"Origin": origin})
    assert answer.status_code == 403
    assert shop.get("/api/queue")["tickets"] == []


OURS = [
    "localhost",
    "localhost:8080",
    "127.0.0.1:8080",
    "192.168.1.20",
    "[::1]:8080",
    "Shop.lan:8080",
    "shop.lan.",
]
FOREIGN = [
    "evil.example",
    "evil.example:8080",
    "localhost.evil.example",
    "127.0.0.1.evil.example",
    "",
    "[",
    "[::1",
]


@pytest.mark.parametrize("path", ["/api/queue", "/register", "/socket.io/?EIO=4&transport=websocket"])
@pytest.mark.parametrize("host", FOREIGN)
def test_a_name_that_is_not_ours_is_refused_on_every_way_in(shop: Shop, host: str, path: str) -> None:
    """DNS rebinding: a site answers its own name with our address, and its page then counts as ours."""
    answer = shop.client.get(path, headers={"Host": host})
    assert (answer.status_code, answer.json["type"]) == (403, "/problems/foreign-host")  # type: ignore[index]
    (fault,) = Problem.model_validate_json(answer.data).errors
    assert (fault.field, fault.value) == ("Host", host)
    assert "HOSTS" in fault.accepted
    sent = shop.send("/api/orders", ORDER, Host=host, Origin=f"http://{host}")
    assert sent.status_code == 403
    assert shop.get("/api/queue")["tickets"] == []


@pytest.mark.parametrize("host", OURS)
def test_addresses_localhost_and_names_of_ours_are_answered(host: str) -> None:
    shop = Shop(names={"shop.lan"})
    answer = shop.client.get("/api/queue", headers={"Host": host})
    assert answer.status_code == 200, answer.text


def test_the_machine_goes_by_its_own_name_and_those_of_the_settings() -> None:
    names = own_names("Shop.lan", ["bar.example"])
    assert {"shop.lan", "bar.example", socket.gethostname().lower()} <= names
    assert "evil.example" not in names


def test_a_request_that_a_browser_marks_as_cross_site_is_refused(shop: Shop) -> None:
    assert shop.send("/api/orders", ORDER, **{"Sec-Fetch-Site": "cross-site"}).status_code == 403


def test_our_own_pages_and_programs_may(shop: Shop) -> None:
    assert shop.send("/api/orders", ORDER, Origin="http://localhost").status_code == 201
    assert shop.send("/api/orders", ORDER).status_code == 201


def test_answers_carry_safe_headers(shop: Shop) -> None:
    for path in ("/api/queue", "/register", "/api/nothing"):
        headers = shop.client.get(path).headers
        assert headers["X-Content-Type-Options"] == "nosniff"
        assert "default-src 'self'" in headers["Content-Security-Policy"]


def test_the_screens_say_so_when_they_are_not_built(shop: Shop) -> None:
    answer = shop.client.get("/bar")
    assert answer.status_code == 503
    assert "not built yet" in answer.text
