"""Hand-offs and steps by mistake, and their taking back; and several cups worked as one."""

from __future__ import annotations

import pytest

from service.journal.refusals import Code, Refused
from service.orders import commands as ask
from service.orders import events
from service.orders.views import ready_at, ticket_state
from service.times.life import marks, spans
from service.times.record import record
from tests.service.samples import DAY, MINUTE, NOON, Bar, a_line, ring
from tests.service.shop import DRINK, OTHER, Shop

HANDED = (ring(), ask.BumpDrink("1.1"), ask.HandOff("1"))


def test_a_hand_off_taken_back_leaves_the_ticket_as_it_stood_ready() -> None:
    bar = Bar(ring(), ask.BumpDrink("1.1"), ring())
    before = bar.state
    bar.tell(ask.HandOff("1"), later=MINUTE)
    assert bar.tell(ask.TakeBack("1"), later=MINUTE) == (events.HandOffTakenBack(NOON + 2 * MINUTE, "1"),)
    assert bar.state.tickets == before.tickets
    assert list(bar.state.tickets) == ["1", "2"]
    assert (ticket_state(bar.state.tickets["1"]), ready_at(bar.state.tickets["1"])) == ("ready", NOON)
    assert (bar.state.closed, bar.state.handed) == ({}, {})


def test_after_it_the_drinks_can_be_recalled_voided_or_handed_off_again() -> None:
    assert Bar(*HANDED, ask.TakeBack("1")).tell(ask.RecallTicket("1"))
    assert Bar(*HANDED, ask.TakeBack("1")).tell(ask.VoidTicket("1", "wrong drink"))
    assert Bar(*HANDED, ask.TakeBack("1")).tell(ask.HandOff("1"))


def test_it_can_be_taken_back_until_the_next_day_begins() -> None:
    bar = Bar(*HANDED)
    # 12:00 plus 15 h is three in the night, the same business day; two hours later the next one has begun.
    bar.tell(ring(), later=15 * 60 * MINUTE)
    assert bar.tell(ask.TakeBack("1"))
    assert bar.tell(ask.HandOff("1"))
    bar.tell(ring(), later=2 * 60 * MINUTE)
    with pytest.raises(Refused, match="earlier day") as refused:
        bar.tell(ask.TakeBack("1"))
    assert refused.value.code is Code.TICKET_CLOSED
    with pytest.raises(Refused, match="Ring in a remake") as refused:
        bar.tell(ask.RecallTicket("1"))
    assert "back first" not in str(refused.value)


def test_a_ticket_of_the_day_before_is_closed_for_good() -> None:
    bar = Bar(ring(), ask.BumpDrink("1.1"))
    bar.tell(ring(), later=DAY)
    bar.tell(ask.HandOff("1"))
    with pytest.raises(Refused, match="earlier day"):
        bar.tell(ask.TakeBack("1"))


def test_its_life_goes_on_as_if_it_had_waited_at_the_counter() -> None:
    bar = Bar(ring())
    for command in (ask.BumpDrink("1.1"), ask.HandOff("1"), ask.TakeBack("1")):
        bar.tell(command, later=MINUTE)
    story = [event for event in bar.events if isinstance(event, events.OrderEvent)]
    told = record(story)
    assert (told.state, told.handed_off_at, told.ready_at) == ("ready", None, NOON + MINUTE)
    assert [mark.what for mark in marks(story)][-2:] == ["handed off", "hand-off taken back"]
    assert [(span.kind, span.end) for span in spans(told, told.drinks[0])][-1] == ("made", None)
    bar.tell(ask.HandOff("1"), later=MINUTE)
    again = record([event for event in bar.events if isinstance(event, events.OrderEvent)])
    assert again.handed_off_at == NOON + 4 * MINUTE


# --- steps done by mistake ------------------------------------------------------------------------


def test_steps_reopened_are_as_if_no_hand_had_been_at_them() -> None:
    bar = Bar(ring())
    fresh = bar.state.tickets["1"].drinks
    bar.tell(ask.FinishSteps("1.1", (1, 2)), later=MINUTE)
    half = bar.state.tickets["1"].drinks
    bar.tell(ask.StartStep("1.1", 5), later=MINUTE)
    bar.tell(ask.FinishSteps("1.1", (4,)))
    assert bar.tell(ask.ReopenSteps("1.1", (4, 5, 6))) == (
        events.StepsReopened(NOON + 2 * MINUTE, "1.1", (4, 5)),
    )
    assert bar.state.tickets["1"].drinks == half
    bar.tell(ask.ReopenSteps("1.1", (1, 2)))
    assert bar.state.tickets["1"].drinks == fresh
    assert ticket_state(bar.state.tickets["1"]) == "waiting"


def test_a_go_that_was_taken_back_counts_in_no_time() -> None:
    bar = Bar(ring())
    bar.tell(ask.StartStep("1.1", 5), later=MINUTE)
    bar.tell(ask.FinishSteps("1.1", (5,)), later=MINUTE)
    bar.tell(ask.ReopenSteps("1.1", (5,)))
    told = record([event for event in bar.events if isinstance(event, events.OrderEvent)])
    assert (told.drinks[0].runs, told.drinks[0].done, told.state) == ([], set(), "waiting")
    bar.tell(ask.StartStep("1.1", 5), later=MINUTE)
    bar.tell(ask.FinishSteps("1.1", (5,)), later=MINUTE)
    (run,) = record([event for event in bar.events if isinstance(event, events.OrderEvent)]).drinks[0].runs
    assert (run.start, run.end) == (NOON + 3 * MINUTE, NOON + 4 * MINUTE)


# --- several cups as one --------------------------------------------------------------------------


def test_alike_cups_are_worked_in_one_moment() -> None:
    bar = Bar(ring(a_line(quantity=3)))
    cups = ("1.1", "1.2", "1.3")
    parts = [part for cup in cups for part in (ask.FinishSteps(cup, (4,)), ask.StartStep(cup, 5))]
    found = bar.tell(ask.Together(tuple(parts)), later=MINUTE)
    assert len(found) == 6
    steps = {drink.steps for drink in bar.state.tickets["1"].drinks}
    assert len(steps) == 1
    assert [step.started_at for step in steps.pop()].count(NOON + MINUTE) == 1


def test_each_part_meets_what_those_before_it_did() -> None:
    bar = Bar(ring(a_line(quantity=2)))
    twice = ask.Together((ask.BumpDrink("1.1"), ask.BumpDrink("1.1"), ask.RecallDrink("1.1")))
    assert [type(event).__name__ for event in bar.tell(twice)] == ["DrinkBumped", "DrinkRecalled"]


def test_the_last_cup_voided_together_takes_the_ticket_along() -> None:
    bar = Bar(ring(a_line(quantity=2)))
    bar.tell(ask.Together((ask.VoidDrink("1.1", "left"), ask.VoidDrink("1.2", "left"))))
    assert bar.state.closed["1"][1] == "void"


# --- over HTTP ------------------------------------------------------------------------------------


@pytest.fixture
def shop() -> Shop:
    return Shop()


def test_several_drinks_over_http_all_or_none(shop: Shop) -> None:
    shop.ring_in({"drink": DRINK}, {"drink": OTHER})
    position = shop.get("/api/queue")["position"]
    refused = shop.send("/api/drinks/bump", {"drinks": ["1.1", "1.3"]})
    assert refused.status_code == 404
    assert shop.get("/api/queue")["position"] == position
    done = shop.post("/api/drinks/work", {"drinks": ["1.1", "1.2"], "finish": [1]})
    assert done == {"position": position + 2, "changed": True}
    assert shop.post("/api/drinks/work", {"drinks": ["1.1"], "finish": [1]})["changed"] is False
    assert shop.post("/api/drinks/work", {"drinks": ["1.1", "1.2"], "reopen": [1, 2]})["changed"] is True
    assert {each["state"] for each in shop.get("/api/queue")["tickets"][0]["drinks"]} == {"waiting"}
    shop.post("/api/drinks/work", {"drinks": ["1.1", "1.2"], "finish": [1]})
    shop.post("/api/drinks/bump", {"drinks": ["1.1", "1.2"]})
    (ticket,) = shop.get("/api/queue")["tickets"]
    assert ticket["state"] == "ready"
    shop.post("/api/drinks/recall", {"drinks": ["1.1", "1.2"]})
    (ticket,) = shop.get("/api/queue")["tickets"]
    assert {drink["state"] for drink in ticket["drinks"]} == {"making"}


@pytest.mark.parametrize(
    ("work", "field"),
    [
        ({}, "finish"),
        ({"reopen": [1, 2], "start": 2}, "reopen"),
        ({"reopen": [1], "finish": [1]}, "reopen"),
    ],
)
def test_work_asks_for_a_state_so_that_it_may_be_sent_again(
    shop: Shop, work: dict[str, object], field: str
) -> None:
    """To reopen a step and begin it at once would set its timer anew each time it is sent."""
    shop.ring_in({"drink": DRINK})
    shop.post("/api/drinks/1.1/start", {"step": 2})
    position = shop.get("/api/queue")["position"]
    refused = shop.send("/api/drinks/work", {"drinks": ["1.1"], **work})
    assert refused.status_code == 422
    assert refused.json is not None
    assert [each["field"] for each in refused.json["errors"]] == [field]
    assert shop.get("/api/queue")["position"] == position


def test_an_order_in_a_list_tells_how_many_of_what_with_words_and_note(shop: Shop) -> None:
    line = {"drink": DRINK, "ice": "less"}
    drinks = [{"line": line, "quantity": 2, "note": "to go"}, {"line": {"drink": OTHER}}]
    receipt = shop.post("/api/orders", {"drinks": drinks}, 201)
    assert [each["note"] for each in receipt["lines"]] == ["to go", ""]
    shop.post("/api/drinks/1.2/void", {"reason": "spilt"})
    (order,) = shop.get("/api/orders")["orders"]
    first, second = order["lines"]
    assert (first["quantity"], first["void"], first["note"]) == (2, 1, "to go")
    assert "less ice" in first["words"]
    assert (second["quantity"], second["void"], second["words"], second["note"]) == (1, 0, [], "")
    assert order["drinks"] == 3
