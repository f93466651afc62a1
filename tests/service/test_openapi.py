"""The API's document: valid by the standard, complete, and true of what the service answers."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from typing import Any

import jsonschema
import pytest
from openapi_spec_validator import validate

from service.app.openapi import messages, wire_schema
from service.books import wire as books_wire
from service.orders import wire as orders_wire
from service.web.problems import KINDS
from service.wire import Asked, Wire
from tests.service.shop import DRINK, Shop


@pytest.fixture(scope="module")
def shop() -> Shop:
    return Shop()


@pytest.fixture(scope="module")
def document(shop: Shop) -> dict[str, Any]:
    found: dict[str, Any] = shop.get("/api/openapi.json")
    return found


def test_it_is_valid_openapi_3_1(document: dict[str, Any]) -> None:
    assert document["openapi"].startswith("3.1")
    validate(document)


def test_every_route_of_the_api_is_in_it_and_nothing_else(shop: Shop, document: dict[str, Any]) -> None:
    served = {
        (re.sub(r"<(\w+)>", r"{\1}", rule.rule), method)
        for rule in shop.app.url_map.iter_rules()
        for method in (rule.methods or set()) - {"HEAD", "OPTIONS"}
        if rule.rule.startswith("/api") or rule.rule == "/healthz"
    }
    told = {(path, method.upper()) for path, item in document["paths"].items() for method in item}
    assert told == served
    assert len(told) >= 20


def test_every_problem_it_names_exists(shop: Shop) -> None:
    text = shop.client.get("/api/openapi.json").text
    named = {code for code in re.findall(r"([a-z-]+): ", text) if code in KINDS}
    assert {"sold-out", "not-ready", "line-refused", "key-reused", "unknown-ticket"} <= named


def test_the_schema_has_every_message_of_the_wire() -> None:
    schema = wire_schema()
    assert {model.__name__ for model in messages()} <= set(schema["$defs"])
    assert {"Build", "Step", "Fill", "Balance", "Line", "Snapshot", "Change", "Follow"} <= set(
        schema["$defs"]
    )
    jsonschema.Draft202012Validator.check_schema(schema)


ANSWERS = {
    "/api/menu": "Menu",
    "/api/queue": "Snapshot",
    "/api/orders": "Orders",
    "/api/times": "Times",
    "/api/tickets/1/life": "Life",
    "/api/book": "BookState",
    "/api/tickets/9/life": "Problem",
}


def test_what_is_answered_is_what_the_schema_says(shop: Shop) -> None:
    schema = wire_schema()

    def check(answer: object, name: str) -> None:
        jsonschema.validate(answer, {**schema, "$ref": f"#/$defs/{name}"})

    check(shop.ring_in(), "Receipt")
    check(shop.post("/api/quote", {"drink": DRINK}), "Quote")
    check(shop.post("/api/drinks/1.1/start", {"step": 1}), "Done")
    for path, name in ANSWERS.items():
        check(shop.client.get(path).json, name)


def test_it_prints_itself_for_the_generator_of_types() -> None:
    printed = subprocess.run(
        [sys.executable, "-m", "service.app.openapi"],
        capture_output=True,
        text=True,
        check=True,
        timeout=60,
    )
    assert json.loads(printed.stdout) == wire_schema()


def test_what_comes_down_is_whole_and_what_goes_up_may_leave_out() -> None:
    definitions = wire_schema()["$defs"]
    for model in messages():
        definition = definitions[model.__name__]
        if model in (books_wire.LineIn, orders_wire.Follow):
            assert set(definition.get("required", [])) < set(definition["properties"])
        if model in (orders_wire.Ticket, orders_wire.Snapshot, orders_wire.Change, books_wire.Menu):
            assert set(definition["required"]) == set(definition["properties"])


OWNERS = {"cost", "margin", "score", "errors", "net", "price_per_kg", "balance"}
"""Names of figures that are the owner's alone."""


@pytest.mark.parametrize("message", ["Snapshot", "Change", "Quote", "Difference", "Menu", "Receipt", "Life"])
def test_what_a_drink_costs_and_earns_is_in_no_message_of_the_counter(message: str) -> None:
    """Cost and margin leave the service on the owner's pages only."""
    definitions = wire_schema()["$defs"]
    waiting, seen = [message], set[str]()
    while waiting:
        name = waiting.pop()
        seen.add(name)
        named = {field for field in definitions[name].get("properties", {}) if field in OWNERS}
        assert named <= ({"net"} if name == "Totals" else set()), name
        met = re.findall(r"#/\$defs/(\w+)", json.dumps(definitions[name]))
        waiting += [other for other in met if other not in seen and other not in waiting]
    assert seen > {message}


def test_every_message_is_written_in_the_wire_of_a_subject_and_none_is_forgotten() -> None:
    """A new one is a class there: the document and the display's types take it up by themselves."""
    every, waiting = set[type[Wire]](), [Wire]
    while waiting:
        for kind in waiting.pop().__subclasses__():
            if kind.__module__.startswith("service."):
                every.add(kind)
                waiting.append(kind)
    assert every - {Asked} == set(messages())
    assert {kind.__module__ for kind in every if "wire" not in kind.__module__.split(".")} == set()
