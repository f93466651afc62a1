"""One cup of an order that is rung in: another line, struck off, made again; and the times of it."""

from __future__ import annotations

from typing import Any

import pytest

from service.calendar.days import Calendar
from service.orders import commands as ask
from service.orders import events
from service.orders.views import ready_at, ticket_state, touched
from service.times.life import marks, spans
from service.times.record import OrderRecord, record
from service.times.review import review
from service.times.spread import spread
from tests.service.samples import MINUTE, NOON, SECOND, WORK, Bar, a_line, ring
from tests.service.shop import DRINK, OTHER, Shop

COCOA = a_line("cocoa", unit=520, work=WORK[3:])


def told(bar: Bar) -> OrderRecord:
    return record(story(bar))


def story(bar: Bar) -> list[events.OrderEvent]:
    return [event for event in bar.events if isinstance(event, events.OrderEvent)]


# --- another line ---------------------------------------------------------------------------------


def test_a_cup_is_replaced_in_its_place_and_keeps_the_order_s_number() -> None:
    bar = Bar(ring(a_line(quantity=2)), ring())
    (event,) = bar.tell(ask.ChangeDrink("1.2", COCOA), later=MINUTE)
    assert isinstance(event, events.DrinkChanged)
    assert (event.drink, event.line.title, event.line.quantity) == ("1.2", "Large Cocoa", 1)
    ticket = bar.state.tickets["1"]
    assert list(bar.state.tickets) == ["1", "2"]
    assert (ticket.number, ticket.rung_at, ticket.totals.gross) == (1, NOON, 960)
    first, second = ticket.drinks
    assert (first.rung.item, first.changed_at) == ("taro", None)
    assert (second.id, second.rung.item, second.changed_at) == ("1.2", "cocoa", NOON + MINUTE)
    assert [step.state for step in second.steps] == ["todo"] * 3


def test_a_change_may_be_changed_again_and_back() -> None:
    bar = Bar(ring(), ask.ChangeDrink("1.1", COCOA))
    assert bar.tell(ask.ChangeDrink("1.1", a_line()))
    assert bar.state.tickets["1"].drinks[0].rung.item == "taro"


def test_a_cup_whose_steps_were_taken_back_is_as_if_nobody_had_begun_it() -> None:
    bar = Bar(ring(), ask.StartStep("1.1", 6), ask.ReopenSteps("1.1", (6,)))
    assert bar.tell(ask.ChangeDrink("1.1", COCOA))


def test_a_bump_by_mistake_before_a_change_leaves_no_steps_behind() -> None:
    """The cup had six steps, the other has three: times of the six would be of steps that are not there."""
    bar = Bar(ring(), ask.BumpDrink("1.1"), ask.RecallDrink("1.1"), ask.ChangeDrink("1.1", COCOA))
    bar.tell(ask.StartStep("1.1", 2), later=MINUTE)
    bar.tell(ask.BumpDrink("1.1"), later=40 * SECOND)
    order = told(bar)
    found = review([order], Calendar("Europe/Lisbon", 240), {})
    assert [(group.id, group.spread.longest) for group in found.by_station] == [("shake", 40.0)]
    assert spans(order, order.drinks[0])[-1].kind == "made"


# --- made again -----------------------------------------------------------------------------------


def test_a_remake_is_to_do_from_the_start_and_the_order_is_not_ready() -> None:
    bar = Bar(ring(a_line(), a_line("cocoa")), ask.BumpTicket("1"))
    remade = ask.RemakeDrink("1.1", "spilled", None, {})
    assert bar.tell(remade, later=MINUTE) == (events.DrinkRemade(NOON + MINUTE, "1.1", "spilled", None),)
    ticket = bar.state.tickets["1"]
    assert (ticket_state(ticket), ready_at(ticket)) == ("making", None)
    cup = ticket.drinks[0]
    assert (cup.state, cup.bumped_at, cup.remade_at, cup.remade_why) == (
        "waiting",
        None,
        NOON + MINUTE,
        "spilled",
    )
    assert {step.state for step in cup.steps} == {"todo"}
    assert bar.tell(ask.RecallDrink("1.1")) == ()


def test_a_cup_being_made_is_made_again_as_another() -> None:
    bar = Bar(ring(), ask.FinishSteps("1.1", (1, 2)))
    (event,) = bar.tell(ask.RemakeDrink("1.1", "changed mind", COCOA, {}))
    assert isinstance(event, events.DrinkRemade)
    assert event.line is not None
    cup = bar.state.tickets["1"].drinks[0]
    assert (cup.rung.item, len(cup.steps), cup.state, cup.changed_at) == ("cocoa", 3, "waiting", NOON)


def test_made_again_as_another_before_anybody_began_it_is_a_change_and_no_waste() -> None:
    bar = Bar(ring())
    (event,) = bar.tell(ask.RemakeDrink("1.1", "changed mind", COCOA, {}))
    assert isinstance(event, events.DrinkChanged)
    assert told(bar).drinks[0].wasted == []


def test_a_handed_off_cup_is_made_again_once_the_hand_off_is_taken_back() -> None:
    bar = Bar(ring(), ask.BumpDrink("1.1"), ask.HandOff("1"), ask.TakeBack("1"))
    assert bar.tell(ask.RemakeDrink("1.1", "wrong build", None, {}))


def test_displays_get_the_builds_of_cups_that_are_others_by_now() -> None:
    bar = Bar(ring(), ring())
    news = [*bar.tell(ask.ChangeDrink("1.1", COCOA)), *bar.tell(ask.BumpDrink("2.1"))]
    assert touched(news).entered == {"1"}
    assert [line.title for event in news for line in events.lines_in(event)] == ["Large Cocoa"]


# --- times ----------------------------------------------------------------------------------------


def test_a_cup_made_again_counts_once_as_what_went_out() -> None:
    """Rung in at 0:00, made at 1:00, spilled at 2:00, shaken again from 3:00 to 3:35, made at 3:40.

    So it was 3:40 to ready, once; and the shaker's time that counts is the 35 s of the cup that went out.
    """
    bar = Bar(ring())
    bar.tell(ask.StartStep("1.1", 5), later=10 * SECOND)
    bar.tell(ask.BumpDrink("1.1"), later=50 * SECOND)
    bar.tell(ask.RemakeDrink("1.1", "spilled", None, {}), later=MINUTE)
    bar.tell(ask.StartStep("1.1", 5), later=MINUTE)
    bar.tell(ask.FinishSteps("1.1", (5,)), later=35 * SECOND)
    bar.tell(ask.BumpDrink("1.1"), later=5 * SECOND)
    order = told(bar)
    found = review([order], Calendar("Europe/Lisbon", 240), {})
    assert found.remade == 1
    assert found.to_ready == spread([220_000])
    assert [(group.id, group.spread.count, group.spread.longest) for group in found.by_drink] == [
        ("taro", 1, 220.0)
    ]
    assert [(group.id, group.spread.count, group.spread.longest) for group in found.by_station] == [
        ("shake", 1, 35.0)
    ]
    strip = [
        (span.kind, span.station, (span.start - NOON) // SECOND, span.end and (span.end - NOON) // SECOND)
        for span in spans(order, order.drinks[0])
    ]
    # The untimed steps of the second go are done with its bump: 5 s at the last of them after the shaking.
    assert strip == [
        ("waiting", None, 0, 10),
        ("step", "shake", 10, 60),
        ("made", None, 60, 120),
        ("waiting", None, 120, 180),
        ("step", "shake", 180, 215),
        ("step", "scoop", 215, 220),
        ("made", None, 220, None),
    ]


def test_a_cup_changed_counts_as_what_it_became() -> None:
    bar = Bar(ring())
    bar.tell(ask.ChangeDrink("1.1", COCOA), later=MINUTE)
    bar.tell(ask.BumpDrink("1.1"), later=MINUTE)
    found = review([told(bar)], Calendar("Europe/Lisbon", 240), {})
    assert [(group.id, group.spread.count, group.spread.longest) for group in found.by_drink] == [
        ("cocoa", 1, 120.0)
    ]
    assert found.remade == 0


def test_what_became_of_a_cup_is_marked_in_the_life_of_its_order() -> None:
    bar = Bar(
        ring(),
        ask.ChangeDrink("1.1", COCOA),
        ask.BumpDrink("1.1"),
        ask.RemakeDrink("1.1", "spilled", None, {}),
        ask.StartStep("1.1", 1),
        ask.RemakeDrink("1.1", "changed mind", a_line(), {}),
    )
    assert [mark.what for mark in marks(story(bar))] == [
        "rung in",
        "Large Taro changed to Large Cocoa, less ice",
        "Large Cocoa made",
        "Large Cocoa to make again: spilled",
        "Large Cocoa to make again as Large Taro, less ice: changed mind",
    ]


def test_a_cup_thrown_away_while_a_timer_runs_ends_it() -> None:
    bar = Bar(ring(), ask.StartStep("1.1", 5))
    bar.tell(ask.RemakeDrink("1.1", "too long", None, {}), later=MINUTE)
    (wasted,) = told(bar).drinks[0].wasted
    assert [(run.step, run.end) for run in wasted.runs] == [(5, NOON + MINUTE)]
    assert told(bar).drinks[0].running == ()


# --- over HTTP ------------------------------------------------------------------------------------


@pytest.fixture
def shop() -> Shop:
    return Shop()


def first(shop: Shop) -> Any:  # noqa: ANN401
    return shop.get("/api/queue")["tickets"][0]


def test_what_a_change_comes_to_is_told_before_it_and_is_due_after_it(shop: Shop) -> None:
    """Taro medium 4.80 and lemon 4.20 as the demo book has them; pearls are 0.70 more: 9.00, then 9.70."""
    shop.ring_in({"drink": DRINK}, {"drink": OTHER})
    line = {"drink": DRINK, "sugar": 50, "toppings": [{"topping": "pearls"}]}
    told = shop.post("/api/drinks/1.1/difference", {"line": line})
    assert (told["price"], told["gross"], told["due"], told["after"] - told["due"]) == (
        550,
        first(shop)["gross"],
        first(shop)["gross"],
        70,
    )
    assert shop.post("/api/drinks/1.1/change", {"line": line}) == {"position": 3, "changed": True}
    ticket = first(shop)
    assert (ticket["number"], ticket["gross"], ticket["due"]) == (1, told["gross"], told["after"])
    queue = shop.get("/api/queue")
    cup = ticket["drinks"][0]
    assert queue["builds"][cup["build"]] == told["build"]
    assert (cup["id"], cup["changed_at"], cup["remade_at"]) == ("1.1", shop.time, None)
    (row,) = shop.get("/api/orders")["orders"]
    assert [(each["quantity"], each["changed"], each["void"]) for each in row["lines"]] == [
        (1, 1, 0),
        (1, 0, 0),
    ]
    assert row["due"] == told["after"]


def test_what_striking_one_cup_gives_back_is_told_before_it(shop: Shop) -> None:
    units = [line["unit"] for line in shop.ring_in({"drink": DRINK}, {"drink": OTHER})["lines"]]
    told = shop.post("/api/drinks/1.1/difference", {})
    assert (told["build"], told["due"] - told["after"]) == (None, units[0])
    shop.post("/api/drinks/1.1/void", {"reason": "wrong"})
    assert first(shop)["due"] == told["after"] == units[1]
    shop.post("/api/drinks/1.1/difference", {}, 409)


def test_a_note_left_out_stays_and_one_given_replaces_it(shop: Shop) -> None:
    shop.post("/api/orders", {"drinks": [{"line": {"drink": DRINK}, "note": "no lid"}]}, 201)
    shop.post("/api/drinks/1.1/change", {"line": {"drink": DRINK, "sugar": 50}})
    assert first(shop)["drinks"][0]["note"] == "no lid"
    shop.post("/api/drinks/1.1/change", {"line": {"drink": DRINK, "sugar": 50}, "note": ""})
    assert first(shop)["drinks"][0]["note"] == ""


def test_a_cup_that_was_begun_is_refused_as_a_change_and_taken_as_a_remake(shop: Shop) -> None:
    shop.ring_in({"drink": DRINK})
    shop.post("/api/drinks/1.1/start", {"step": 1})
    refused = shop.post("/api/drinks/1.1/change", {"line": {"drink": OTHER}}, 409)
    assert refused["type"] == "/problems/drink-begun"
    assert refused["errors"][0]["accepted"] == "remake 1.1"
    remake = {"line": {"drink": OTHER}, "reason": "changed\u202e mind"}
    assert shop.post("/api/drinks/1.1/remake", remake)["changed"]
    cup = first(shop)["drinks"][0]
    assert (cup["state"], cup["remade_why"]) == ("waiting", "changed mind")
    assert (shop.get("/api/times")["remade"], shop.get("/api/times")["void"]) == (1, 0)


def test_a_repeat_has_its_first_answer_whatever_happened_since(shop: Shop) -> None:
    """Sent again once the cup was begun, and once it was handed off: without its key either were refused."""
    shop.ring_in({"drink": DRINK})
    changed = shop.post("/api/drinks/1.1/change", {"line": {"drink": OTHER}}, key="k1")
    shop.post("/api/drinks/1.1/bump")
    remade = shop.post("/api/drinks/1.1/remake", {"reason": "spilled"}, key="k2")
    shop.post("/api/drinks/1.1/bump")
    assert shop.post("/api/drinks/1.1/remake", {"reason": "spilled"}, key="k2") == remade
    assert first(shop)["state"] == "ready", "a remake sent twice must not be made twice"
    shop.post("/api/tickets/1/hand-off")
    shop.post("/api/sold-out", {"item": OTHER, "sold_out": True})
    assert shop.post("/api/drinks/1.1/change", {"line": {"drink": OTHER}}, key="k1") == changed
    assert shop.post("/api/drinks/1.1/remake", {"reason": "spilled"}, key="k2") == remade


@pytest.mark.parametrize(
    ("path", "body"),
    [("change", {"line": {"drink": DRINK}}), ("remake", {"reason": "spilled"})],
)
def test_without_a_key_nothing_is_done(shop: Shop, path: str, body: dict[str, object]) -> None:
    shop.ring_in({"drink": OTHER})
    refused = shop.client.post(f"/api/drinks/1.1/{path}", json=body)
    assert (refused.status_code, (refused.json or {})["type"]) == (400, "/problems/key-missing")
    assert shop.get("/api/queue")["position"] == 2


@pytest.mark.parametrize(
    ("drink", "body", "code", "field"),
    [
        ("1.1", {"line": {"drink": "gravel"}}, "line-refused", "line.drink"),
        ("1.1", {"line": {"drink": OTHER, "milk": "oat"}}, "line-refused", "line.milk"),
        ("1.7", {"line": {"drink": OTHER}}, "unknown-drink", "drink"),
        ("9.1", {"line": {"drink": OTHER}}, "unknown-ticket", "ticket"),
        ("1.1", {"line": {}}, "wrong-fields", "line.drink"),
    ],
)
def test_a_wrong_change_names_its_field(
    shop: Shop, drink: str, body: dict[str, object], code: str, field: str
) -> None:
    shop.ring_in({"drink": DRINK})
    for path in ("change", "difference"):
        refused = shop.send(f"/api/drinks/{drink}/{path}", body).json or {}
        assert refused["type"] == f"/problems/{code}"
        assert refused["errors"][0]["field"].endswith(field.rpartition(".")[2])
    assert shop.get("/api/queue")["position"] == 2


def test_what_has_run_out_since_is_neither_changed_to_nor_made_again(shop: Shop) -> None:
    shop.ring_in({"drink": DRINK, "milk": None}, {"drink": OTHER})
    shop.post("/api/drinks/1.1/bump")
    shop.post("/api/sold-out", {"item": DRINK, "sold_out": True})
    assert (
        shop.post("/api/drinks/1.2/change", {"line": {"drink": DRINK}}, 409)["type"] == "/problems/sold-out"
    )
    refused = shop.post("/api/drinks/1.1/remake", {"reason": "spilled"}, 409)
    assert refused["type"] == "/problems/sold-out"
    assert shop.post("/api/drinks/1.1/remake", {"reason": "out", "line": {"drink": OTHER}})["changed"]


def test_a_change_reaches_another_process_of_the_store_with_its_build(shop: Shop) -> None:
    shop.ring_in({"drink": DRINK})
    other = Shop(journal=shop.journal)
    shop.post("/api/drinks/1.1/change", {"line": {"drink": OTHER}})
    other.desk.fold.catch_up(other.journal)
    assert other.get("/api/queue")["tickets"] == shop.get("/api/queue")["tickets"]
    assert other.get("/api/queue")["builds"] == shop.get("/api/queue")["builds"]
    shop.ring_in({"drink": DRINK})
    assert other.post("/api/drinks/2.1/change", {"line": {"drink": OTHER}})["changed"], "not heard of yet"
