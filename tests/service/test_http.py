"""The API as a client meets it, from ring-in to review, on the demo book."""

from __future__ import annotations

import logging
import threading
from typing import Any

import pytest

from recipes.asking.lines import default_line
from recipes.building.resolve import resolve
from service.books import wire as books_wire
from service.journal.journal import Unavailable
from service.journal.memory import MemoryJournal
from service.orders import wire as orders_wire
from service.orders.events import RungIn
from service.times import wire as times_wire
from service.web.problems import KINDS
from service.wire import Problem
from tests.service.samples import DAY, MINUTE, SECOND
from tests.service.shop import DRINK, OTHER, Shop


@pytest.fixture
def shop() -> Shop:
    return Shop()


def problem(answer: Any, status: int, code: str) -> Problem:  # noqa: ANN401
    assert (answer.status_code, answer.mimetype) == (status, "application/problem+json"), answer.text
    found = Problem.model_validate_json(answer.data)
    assert (found.type, found.status) == (f"/problems/{code}", status)
    return found


def test_a_ticket_from_ring_in_to_review(shop: Shop) -> None:
    receipt = orders_wire.Receipt.model_validate(shop.ring_in({"drink": DRINK, "ice": "less"}, name=" Ana\n"))
    assert (receipt.id, receipt.number, receipt.name, receipt.day) == ("1", 1, "Ana", "2026-03-02")
    queue = orders_wire.Snapshot.model_validate(shop.get("/api/queue"))
    (drink,) = queue.tickets[0].drinks
    build = queue.builds[drink.build]
    assert len(drink.steps) == len(build.steps) > 3
    assert build.line.ice == "less"

    shop.time += 30 * SECOND
    assert shop.post("/api/drinks/1.1/start", {"step": 1}) == {"position": 3, "changed": True}
    shop.time += 10 * SECOND
    assert shop.post("/api/drinks/1.1/finish", {"steps": [1, 2]})["changed"]
    assert shop.get("/api/queue")["tickets"][0]["state"] == "making"
    shop.time += 20 * SECOND
    shop.post("/api/drinks/1.1/bump")
    assert shop.get("/api/queue")["tickets"][0]["ready_at"] == receipt.rung_at + MINUTE
    shop.time += 30 * SECOND
    shop.post("/api/tickets/1/hand-off", {})
    assert shop.get("/api/queue")["tickets"] == []

    times = times_wire.Times.model_validate(shop.get("/api/times?day=2026-03-02"))
    assert (times.to_ready.p50, times.to_hand_off.longest, times.days) == (60.0, 90.0, ["2026-03-02"])
    assert times.by_station[0].at_work.p50 == 10.0
    assert [row.state for row in times.orders] == ["handed off"]
    life = times_wire.Life.model_validate(shop.get("/api/tickets/1/life"))
    assert [mark.what for mark in life.marks] == ["rung in", f"{life.drinks[0].title} made", "handed off"]
    assert life.drinks[0].spans[0].start == receipt.rung_at
    assert life.drinks[0].spans[-1].end == receipt.rung_at + 90 * SECOND


def test_a_quote_is_what_the_ring_in_then_charges(shop: Shop) -> None:
    line = {"drink": DRINK, "size": "large", "toppings": [{"topping": t} for t in toppings(shop)[:2]]}
    quote = orders_wire.Quote.model_validate(shop.post("/api/quote", line))
    receipt = shop.ring_in(line)
    assert receipt["lines"][0]["unit"] == quote.price == receipt["totals"]["gross"]
    assert shop.get("/api/queue")["tickets"][0]["drinks"][0]["build"] == quote.build.id


def toppings(shop: Shop) -> list[str]:
    return next(each["toppings"] for each in shop.get("/api/menu")["drinks"] if each["id"] == DRINK)


def test_the_totals_hold_the_book_s_tax(shop: Shop) -> None:
    """10 % VAT contained in the price: a share of 10/110, rounded half up to a cent."""
    from fractions import Fraction

    totals = shop.ring_in({"drink": DRINK}, {"drink": OTHER})["totals"]
    exact = Fraction(totals["gross"] * 10, 110)
    assert abs(totals["tax"] - exact) <= Fraction(1, 2)
    assert totals["net"] + totals["tax"] == totals["gross"]
    assert (totals["tax_name"], totals["tax_percent"], totals["tax_included"]) == ("VAT", "10", True)


def test_quantity_makes_so_many_cups(shop: Shop) -> None:
    body = {"drinks": [{"line": {"drink": DRINK}, "quantity": 3, "note": "for\u202e here"}]}
    receipt = shop.post("/api/orders", body, 201)
    assert (receipt["lines"][0]["quantity"], receipt["lines"][0]["amount"]) == (3, receipt["totals"]["gross"])
    drinks = shop.get("/api/queue")["tickets"][0]["drinks"]
    assert [each["id"] for each in drinks] == ["1.1", "1.2", "1.3"]
    assert {each["note"] for each in drinks} == {"for here"}


def test_names_are_cut_and_stripped(shop: Shop) -> None:
    assert shop.ring_in(name="<i>\u0007" + "x" * 1500)["name"] == "<i>" + "x" * 36 + "…"


# --- keys -----------------------------------------------------------------------------------------


def test_a_repeated_ring_in_is_one_order_with_one_answer(shop: Shop) -> None:
    body = {"drinks": [{"line": {"drink": DRINK}}]}
    first, second = (shop.send("/api/orders", body, key="k") for _ in range(2))
    assert (first.status_code, first.data) == (second.status_code, second.data)
    assert len(shop.get("/api/queue")["tickets"]) == 1


def test_a_quoted_key_is_the_same_key(shop: Shop) -> None:
    body = {"drinks": [{"line": {"drink": DRINK}}]}
    assert shop.send("/api/orders", body, key="k").data == shop.send("/api/orders", body, key='"k"').data


def test_a_repeat_with_another_body_is_refused_and_harms_nothing(shop: Shop) -> None:
    first = shop.ring_in(key="k")
    other = shop.send("/api/orders", {"drinks": [{"line": {"drink": OTHER}}]}, key="k")
    (fault,) = problem(other, 422, "key-reused").errors
    assert (fault.field, fault.value) == ("Idempotency-Key", "k")
    assert shop.ring_in(key="k") == first


def test_a_repeat_is_answered_even_when_the_drink_is_sold_out_by_then(shop: Shop) -> None:
    first = shop.ring_in(key="k")
    shop.post("/api/sold-out", {"item": DRINK, "sold_out": True})
    assert shop.ring_in(key="k") == first
    problem(shop.send("/api/orders", {"drinks": [{"line": {"drink": DRINK}}]}), 409, "sold-out")


def test_two_equal_ring_ins_at_the_same_time_on_two_services_are_one_order() -> None:
    journal = MemoryJournal()
    shops = [Shop(journal=journal), Shop(journal=journal)]
    answers: list[bytes] = []
    together = threading.Barrier(8)

    def send(n: int) -> None:
        body = {"drinks": [{"line": {"drink": DRINK}}]}
        together.wait(10)
        answers.append(shops[n % 2].send("/api/orders", body, key="same").data)

    threads = [threading.Thread(target=send, args=(n,)) for n in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(10)
    assert len(answers) == 8
    assert len(set(answers)) == 1
    assert sum(envelope.record.kind == "rung-in" for envelope in journal.read(0, 100)) == 1


@pytest.mark.parametrize("key", ["", "   ", '""'])
def test_a_ring_in_needs_a_key(shop: Shop, key: str) -> None:
    answer = shop.client.post(
        "/api/orders", json={"drinks": [{"line": {"drink": DRINK}}]}, headers={"Idempotency-Key": key}
    )
    assert problem(answer, 400, "key-missing").errors[0].field == "Idempotency-Key"


def test_a_key_is_of_sensible_length(shop: Shop) -> None:
    problem(
        shop.send("/api/orders", {"drinks": [{"line": {"drink": DRINK}}]}, key="k" * 201), 400, "key-unusable"
    )


# --- refusals -------------------------------------------------------------------------------------

WRONG_LINES: dict[str, tuple[dict[str, object], str]] = {
    "drink": ({"drink": "engine_oil"}, "drink"),
    "size": ({"drink": DRINK, "size": "barrel"}, "size"),
    "sugar": ({"drink": DRINK, "sugar": 33}, "sugar"),
    "ice": ({"drink": DRINK, "ice": "glacier"}, "ice"),
    "shots": ({"drink": DRINK, "shots": 9}, "shots"),
    "topping": ({"drink": DRINK, "toppings": [{"topping": "gravel"}]}, "toppings"),
    "milk": ({"drink": DRINK, "milk": "yak"}, "milk"),
    "without": ({"drink": DRINK, "without": ["water"]}, "without"),
}


@pytest.mark.parametrize("name", WRONG_LINES)
def test_a_line_that_cannot_be_made_is_refused_by_field(shop: Shop, name: str) -> None:
    line, field = WRONG_LINES[name]
    found = problem(shop.send("/api/quote", line), 422, "line-refused")
    assert found.errors[0].field == field
    assert found.errors[0].accepted
    found = problem(
        shop.send("/api/orders", {"drinks": [{"line": {"drink": OTHER}}, {"line": line}]}),
        422,
        "line-refused",
    )
    assert found.errors[0].field == f"drinks[1].line.{field}"


def test_commands_are_refused_in_plain_words(shop: Shop) -> None:
    shop.ring_in()
    assert "no ticket '9'" in problem(shop.send("/api/tickets/9/bump"), 404, "unknown-ticket").detail
    assert "1.1" in problem(shop.send("/api/tickets/1/hand-off"), 409, "not-ready").detail
    problem(shop.send("/api/drinks/1.1/start", {"step": 99}), 422, "unknown-step")
    problem(shop.send("/api/tickets/1/void", {"reason": "\u202e"}), 422, "reason-missing")
    problem(shop.send("/api/sold-out", {"item": "gravel", "sold_out": True}), 404, "unknown-item")
    shop.post("/api/tickets/1/bump")
    shop.post("/api/tickets/1/hand-off")
    assert "handed off" in problem(shop.send("/api/tickets/1/recall"), 409, "handed-off").detail
    problem(shop.send("/api/tickets/1/void", {"reason": "spilt"}), 409, "handed-off")


def test_a_bump_of_a_drink_bumped_elsewhere_is_no_error() -> None:
    journal = MemoryJournal()
    here, there = Shop(journal=journal), Shop(journal=journal)
    here.ring_in()
    assert there.post("/api/drinks/1.1/bump")["changed"] is True
    assert here.post("/api/drinks/1.1/bump")["changed"] is False


@pytest.mark.parametrize(
    "path", ["tickets/9/bump", "drinks/9.1/bump", "drinks/nine/bump", "drinks/1.9/bump", "drinks/1.1/recall"]
)
@pytest.mark.parametrize("some_open", [True, False])
def test_every_refusal_names_field_value_and_what_is_accepted(
    shop: Shop, path: str, *, some_open: bool
) -> None:
    shop.ring_in({"drink": DRINK}, {"drink": OTHER})
    shop.post("/api/drinks/1.1/void", {"reason": "spilt"})
    if not some_open:
        shop.post("/api/drinks/1.2/void", {"reason": "spilt"})
    answer = shop.send(f"/api/{path}")
    (fault,) = Problem.model_validate_json(answer.data).errors
    assert fault.field in ("ticket", "drink")
    assert fault.value in path
    assert fault.accepted


@pytest.mark.parametrize("code", KINDS)
def test_every_problem_explains_itself(shop: Shop, code: str) -> None:
    answer = shop.client.get(f"/problems/{code}")
    assert (answer.status_code, answer.mimetype) == (200, "text/plain")
    assert KINDS[code].about in answer.text


# --- sold out -------------------------------------------------------------------------------------


def test_every_default_drink_is_refused_once_its_milk_or_topping_is_sold_out(shop: Shop) -> None:
    """By the id that the register offers: a recipe names an ingredient, the Sold-out page a milk."""
    menu, book = books_wire.Menu.model_validate(shop.get("/api/menu")), shop.desk.book()
    assert book is not None
    goods = {milk.id: milk.ingredient for milk in book.milks.values()}
    goods |= {topping.id: topping.ingredient for topping in book.toppings.values()}
    builds = {drink.id: shop.desk.builds.resolve(book, drink.default) for drink in menu.drinks}
    stopped = 0
    for item in [each.id for each in (*menu.milks, *menu.toppings)]:
        shop.post("/api/sold-out", {"item": item, "sold_out": True})
        for drink in menu.drinks:
            used = goods[item] in builds[drink.id].uses
            assert (item in drink.uses) == used, (drink.id, item)
            answer = shop.send("/api/orders", {"drinks": [{"line": {"drink": drink.id}}]})
            assert answer.status_code == (409 if used else 201), (drink.id, item, answer.text)
            stopped += used
        shop.post("/api/sold-out", {"item": item, "sold_out": False})
    assert stopped > 5


def test_a_drink_whose_milk_is_out_is_taken_with_another(shop: Shop) -> None:
    menu = books_wire.Menu.model_validate(shop.get("/api/menu"))
    drink = next(each for each in menu.drinks if "whole" in each.uses and "oat" in each.milks)
    shop.post("/api/sold-out", {"item": "whole", "sold_out": True})
    found = problem(shop.send("/api/orders", {"drinks": [{"line": {"drink": drink.id}}]}), 409, "sold-out")
    assert found.detail.count("whole milk") == 1
    shop.ring_in({"drink": drink.id, "milk": "oat"})


# --- the clock ------------------------------------------------------------------------------------


def test_one_wrong_reading_of_the_clock_is_told(
    shop: Shop, caplog: pytest.LogCaptureFixture, monkeypatch: pytest.MonkeyPatch
) -> None:
    shop.time += DAY
    shop.ring_in()
    shop.time -= DAY - 4 * MINUTE
    assert shop.get("/healthz") == {"status": "ok"} | {
        "clock": "the journal's last record is dated 1436 minutes ahead of this machine's clock: one of the "
        "two is wrong, and times stand still until the clock has come up to it"
    }
    monkeypatch.setattr(logging.getLogger("levelscoop"), "propagate", True)
    Shop(journal=shop.journal)
    assert any("ahead of this machine's clock" in line for line in caplog.messages)
    shop.time += DAY - 8 * MINUTE
    assert shop.get("/healthz") == {"status": "ok"}, "corrections of a few minutes are nothing to tell"


# --- the past -------------------------------------------------------------------------------------


def test_orders_of_a_day_tell_how_each_ended(shop: Shop) -> None:
    for _ in range(3):
        shop.ring_in()
    shop.post("/api/tickets/1/bump")
    shop.post("/api/tickets/1/hand-off")
    shop.post("/api/tickets/2/void", {"reason": "changed\ttheir mind"})
    rows = times_wire.Orders.model_validate(shop.get("/api/orders")).orders
    assert [(row.id, row.state, row.void_reason) for row in rows] == [
        ("1", "handed off", None),
        ("2", "void", "changed their mind"),
        ("3", "waiting", None),
    ]


def test_a_voided_drink_is_no_longer_due(shop: Shop) -> None:
    units = [line["unit"] for line in shop.ring_in({"drink": DRINK}, {"drink": OTHER})["lines"]]
    shop.post("/api/drinks/1.1/void", {"reason": "spilt"})
    row, ticket = shop.get("/api/orders")["orders"][0], shop.get("/api/queue")["tickets"][0]
    assert (row["gross"], row["due"]) == (ticket["gross"], ticket["due"]) == (sum(units), units[1])
    shop.post("/api/drinks/1.2/void", {"reason": "spilt too"})
    row = shop.get("/api/orders")["orders"][0]
    assert (row["state"], row["due"]) == ("void", 0)


def test_the_menu_tells_the_tax_that_a_ring_in_charges(shop: Shop) -> None:
    told, charged = shop.get("/api/menu")["tax"], shop.ring_in()["totals"]
    assert told == {"name": "VAT", "percent": "10", "included": True, "rounded": "order"}
    assert [charged[f"tax_{name}"] for name in ("name", "percent", "included")] == ["VAT", "10", True]


def test_the_list_of_orders_moves_on_with_them(shop: Shop) -> None:
    shop.ring_in()
    states = [shop.get("/api/orders")["orders"][0]["state"]]
    for act in ("bump", "recall", "bump", "hand-off"):
        shop.post(f"/api/tickets/1/{act}")
        states.append(shop.get("/api/orders")["orders"][0]["state"])
        assert [each["state"] for each in shop.get("/api/queue")["tickets"]] in ([states[-1]], [])
    # No hand was at a step: the bump was by mistake, and the recall takes back all of it, as in the queue.
    assert states == ["waiting", "ready", "waiting", "ready", "handed off"]


def test_old_days_are_read_from_the_journal_alike(shop: Shop) -> None:
    """A ticket left open over night counts for the day it was rung in, however long ago that is."""
    shop.ring_in()
    shop.ring_in()
    shop.post("/api/tickets/1/bump")
    shop.post("/api/tickets/1/hand-off")
    shop.time += DAY
    shop.ring_in()
    shop.post("/api/tickets/2/bump")
    shop.post("/api/tickets/2/hand-off")
    orders, times, life = (
        shop.get(path)
        for path in ("/api/orders?day=2026-03-02", "/api/times?day=2026-03-02", "/api/tickets/2/life")
    )
    for _ in range(3):
        shop.time += DAY
        shop.ring_in()
    assert "2" not in shop.app.extensions["history"]._stories
    assert shop.get("/api/orders?day=2026-03-02") == orders
    later = shop.get("/api/times?day=2026-03-02")
    assert {**later, "days": None} == {**times, "days": None}
    assert {**shop.get("/api/tickets/2/life"), "now": 0} == {**life, "now": 0}
    again = Shop(journal=shop.journal)
    assert again.get("/api/orders?day=2026-03-02") == orders


def test_a_day_without_orders_is_empty_and_no_day_is_refused(shop: Shop) -> None:
    assert shop.get("/api/orders?day=2020-01-01") == {"day": "2020-01-01", "orders": []}
    problem(shop.client.get("/api/times?day=yesterday"), 422, "wrong-day")
    (fault,) = problem(shop.client.get("/api/tickets/77/life"), 404, "unknown-ticket").errors
    assert (fault.field, fault.value) == ("ticket", "77")
    assert "there is none yet" in fault.accepted
    shop.ring_in()
    (fault,) = problem(shop.client.get("/api/tickets/77/life"), 404, "unknown-ticket").errors
    assert "1 to 1" in fault.accepted


# --- when the journal is away ---------------------------------------------------------------------


def test_without_the_journal_commands_are_refused_and_reads_go_on(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    shop.ring_in()

    def away(*_: object) -> None:
        raise Unavailable("away")

    for name in ("append", "read", "wait", "answered", "files"):
        monkeypatch.setattr(shop.journal, name, away)
    shop.desk.follower.reachable.clear()
    answer = shop.send("/api/orders", {"drinks": [{"line": {"drink": DRINK}}]})
    problem(answer, 503, "journal-away")
    assert answer.headers["Retry-After"] == "1"
    problem(shop.client.get("/healthz"), 503, "journal-away")
    for path in ("queue", "menu", "orders", "times", "book", "tickets/1/life"):
        assert shop.client.get(f"/api/{path}").status_code == 200
    monkeypatch.undo()
    shop.desk.follower.reachable.set()
    assert shop.ring_in()["number"] == 2
    assert shop.get("/healthz") == {"status": "ok"}


def test_the_journal_says_by_which_request_something_was_done(shop: Shop) -> None:
    """By its key, where it has one; else by a name of its own, another for each."""
    shop.ring_in(key="a-key")
    for _ in range(2):
        shop.client.post("/api/drinks/1.1/bump")
        shop.client.post("/api/drinks/1.1/recall")
    asked = [envelope.record.origin.request for envelope in shop.journal.read(1, 100)]
    assert asked[0] == "a-key"
    assert len(set(asked)) == len(asked) == 5
    assert "" not in asked


def test_an_order_says_what_its_steps_ask_of_hands_and_what_goes_in(shop: Shop) -> None:
    """So that nobody asks the book again: seconds with hands and without, unknown apart from none."""
    shop.ring_in({"drink": DRINK})
    (event,) = [shop.desk.fold.codec.decode(each) for each in shop.journal.read(1, 1)]
    assert isinstance(event, RungIn)
    (rung,) = event.lines
    book = shop.desk.book()
    assert book is not None
    build = resolve(book, default_line(book, DRINK))
    assert rung.cost == build.balance.cost
    assert rung.cost is not None
    assert 0 < rung.cost < rung.unit
    for work, step in zip(rung.work, build.steps, strict=True):
        assert (work.ingredient, work.vessel) == (step.ingredient, step.into)
        assert work.grams == (None if step.amount is None else step.amount.mass_g)
        if step.duration is None:
            assert (work.attended_s, work.unattended_s) == (None, (0.0, 0.0))
        elif step.duration.attended:
            assert work.attended_s == (work.low_s, work.high_s)
        else:
            assert (work.attended_s, work.unattended_s) == (None, (work.low_s, work.high_s))
    shake = next(work for work in rung.work if work.station == "shake" and work.high_s > 0)
    assert shake.unattended_s == (shake.low_s, shake.high_s)
