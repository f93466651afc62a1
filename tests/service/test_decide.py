"""What the bar says to each command: a row for every refusal, and what happens otherwise."""

from __future__ import annotations

from collections.abc import Callable
from typing import cast

import pytest

from service.journal.refusals import Code, Refused
from service.orders import commands as ask
from service.orders import events
from service.orders.commands import Command
from service.orders.decide import decide
from service.orders.state import EMPTY
from service.orders.views import ready_at, ticket_state
from tests.service.samples import DAY, HOUR, MINUTE, NOON, OPEN, SECOND, WORK, Bar, a_line, ring

Do = Callable[[], Command]

HANDED = (ring(), ask.BumpDrink("1.1"), ask.HandOff("1"))
VOID = (ring(), ask.VoidTicket("1", "left"))
TWO = ring(a_line(), a_line("cocoa"))

REFUSALS: dict[str, tuple[Code, tuple[Command, ...], Command, str]] = {
    "no cups": (Code.EMPTY_ORDER, (), ask.RingIn("", (), "EUR", ring().tax), "at least one drink"),
    "a slip": (Code.TOO_MANY_CUPS, (), ring(a_line(quantity=201)), "at most 200"),
    "powder out": (Code.SOLD_OUT, (ask.SellOut("taro_powder", True),), ring(), "taro powder sold out"),
    "drink out": (Code.SOLD_OUT, (ask.SellOut("taro", True),), ring(), "Large Taro cannot be made"),
    "no such ticket": (Code.UNKNOWN_TICKET, (ring(),), ask.BumpTicket("2"), "no ticket '2'"),
    "no ticket by words": (Code.UNKNOWN_TICKET, (ring(),), ask.HandOff("first"), "no ticket 'first'"),
    "no ticket zero": (Code.UNKNOWN_TICKET, (ring(),), ask.HandOff("01"), "no ticket '01'"),
    "no such drink": (Code.UNKNOWN_DRINK, (ring(),), ask.BumpDrink("1.2"), "has no drink '1.2'"),
    "a drink without order": (Code.UNKNOWN_DRINK, (ring(),), ask.BumpDrink("1"), "named like 17.2"),
    "a drink of no ticket": (Code.UNKNOWN_TICKET, (ring(),), ask.BumpDrink("9.1"), "no ticket '9'"),
    "no such step to start": (Code.UNKNOWN_STEP, (ring(),), ask.StartStep("1.1", 7), "steps are 1 to 6"),
    "no such step to finish": (Code.UNKNOWN_STEP, (ring(),), ask.FinishSteps("1.1", (1, 99)), "no step 99"),
    "recall after hand-off": (Code.HANDED_OFF, HANDED, ask.RecallDrink("1.1"), "was handed off"),
    "recall ticket after hand-off": (Code.HANDED_OFF, HANDED, ask.RecallTicket("1"), "was handed off"),
    "void after hand-off": (Code.HANDED_OFF, HANDED, ask.VoidTicket("1", "spilt"), "was handed off"),
    "void drink after hand-off": (Code.HANDED_OFF, HANDED, ask.VoidDrink("1.1", "spilt"), "handed off"),
    "bump of a void ticket": (Code.TICKET_VOID, VOID, ask.BumpTicket("1"), "was voided"),
    "bump of its drink": (Code.TICKET_VOID, VOID, ask.BumpDrink("1.1"), "was voided"),
    "hand-off of a void ticket": (Code.TICKET_VOID, VOID, ask.HandOff("1"), "was voided"),
    "recall of a void ticket": (Code.TICKET_VOID, VOID, ask.RecallTicket("1"), "was voided"),
    "bump of a void drink": (
        Code.DRINK_VOID,
        (TWO, ask.VoidDrink("1.1", "wrong")),
        ask.BumpDrink("1.1"),
        "Drink 1.1 was voided",
    ),
    "start of a void drink": (
        Code.DRINK_VOID,
        (TWO, ask.VoidDrink("1.1", "wrong")),
        ask.StartStep("1.1", 1),
        "Drink 1.1 was voided",
    ),
    "recall of a void drink": (
        Code.DRINK_VOID,
        (TWO, ask.VoidDrink("1.1", "wrong")),
        ask.RecallDrink("1.1"),
        "Drink 1.1 was voided",
    ),
    "reopening of a bumped drink": (
        Code.DRINK_MADE,
        (ring(), ask.BumpDrink("1.1")),
        ask.ReopenSteps("1.1", (1,)),
        "recall it first",
    ),
    "reopening after hand-off": (Code.HANDED_OFF, HANDED, ask.ReopenSteps("1.1", (1,)), "was handed off"),
    "no such step to reopen": (
        Code.UNKNOWN_STEP,
        (ring(),),
        ask.ReopenSteps("1.1", (7,)),
        "steps are 1 to 6",
    ),
    "hand-off too early": (Code.NOT_READY, (TWO, ask.BumpDrink("1.1")), ask.HandOff("1"), "Cocoa (1.2)"),
    "taking back of no ticket": (Code.UNKNOWN_TICKET, (ring(),), ask.TakeBack("2"), "no ticket '2'"),
    "taking back of a void ticket": (Code.TICKET_VOID, VOID, ask.TakeBack("1"), "was voided"),
    "one of several is void": (
        Code.DRINK_VOID,
        (TWO, ask.VoidDrink("1.2", "wrong")),
        ask.Together((ask.BumpDrink("1.1"), ask.BumpDrink("1.2"))),
        "Drink 1.2 was voided",
    ),
    "change of a cup being made": (
        Code.DRINK_BEGUN,
        (ring(), ask.StartStep("1.1", 1)),
        ask.ChangeDrink("1.1", a_line("cocoa")),
        "Large Taro (1.1) is being made: make it again as another",
    ),
    "change of a made cup": (
        Code.DRINK_BEGUN,
        (ring(), ask.BumpDrink("1.1")),
        ask.ChangeDrink("1.1", a_line("cocoa")),
        "is made: make it again",
    ),
    "change after hand-off": (
        Code.HANDED_OFF,
        HANDED,
        ask.ChangeDrink("1.1", a_line("cocoa")),
        "Take the hand-off back first",
    ),
    "change of a void cup": (
        Code.DRINK_VOID,
        (TWO, ask.VoidDrink("1.1", "wrong")),
        ask.ChangeDrink("1.1", a_line("cocoa")),
        "Drink 1.1 was voided",
    ),
    "change to what is out": (
        Code.SOLD_OUT,
        (ring(), ask.SellOut("cocoa", True)),
        ask.ChangeDrink("1.1", a_line("cocoa")),
        "Large Cocoa cannot be made",
    ),
    "remake after hand-off": (
        Code.HANDED_OFF,
        HANDED,
        ask.RemakeDrink("1.1", "wrong build", None, {}),
        "Take the hand-off back first",
    ),
    "remake of a void cup": (
        Code.DRINK_VOID,
        (TWO, ask.VoidDrink("1.1", "wrong")),
        ask.RemakeDrink("1.1", "spilled", None, {}),
        "Drink 1.1 was voided",
    ),
    "remake of what is out": (
        Code.SOLD_OUT,
        (ring(), ask.BumpDrink("1.1"), ask.SellOut("milk", True)),
        ask.RemakeDrink("1.1", "spilled", None, {"milk": "Milk"}),
        "Large Taro cannot be made: Milk sold out",
    ),
    "remake as what is out": (
        Code.SOLD_OUT,
        (ring(), ask.BumpDrink("1.1"), ask.SellOut("cocoa", True)),
        ask.RemakeDrink("1.1", "changed mind", a_line("cocoa"), {}),
        "Large Cocoa cannot be made",
    ),
    "no reason for a remake": (
        Code.REASON_MISSING,
        (ring(), ask.BumpDrink("1.1")),
        ask.RemakeDrink("1.1", " ", None, {}),
        "Say why",
    ),
    "no reason": (Code.REASON_MISSING, (ring(),), ask.VoidTicket("1", "  "), "Say why"),
    "no reason for a drink": (Code.REASON_MISSING, (ring(),), ask.VoidDrink("1.1", ""), "Say why"),
}


@pytest.mark.parametrize("name", REFUSALS)
def test_a_refusal_names_what_was_asked_and_says_why(name: str) -> None:
    code, before, command, words = REFUSALS[name]
    bar = Bar(*before)
    with pytest.raises(Refused) as refused:
        bar.tell(command)
    assert refused.value.code == code
    assert words in str(refused.value)


def test_without_a_book_nothing_is_rung_in() -> None:
    with pytest.raises(Refused) as refused:
        decide(EMPTY, ring(), NOON)
    assert refused.value.code == Code.NO_BOOK


def test_a_ticket_of_long_ago_is_closed() -> None:
    bar = Bar(*HANDED)
    for _ in range(2):
        bar.tell(ring(), later=DAY)
    with pytest.raises(Refused, match="earlier day") as refused:
        bar.tell(ask.RecallTicket("1"))
    assert refused.value.code == Code.TICKET_CLOSED


def test_every_reason_to_say_no_has_a_row() -> None:
    rows = {row[0] for row in REFUSALS.values()} | {Code.NO_BOOK, Code.TICKET_CLOSED}
    assert rows == set(Code)


def test_what_is_accepted_is_named() -> None:
    with pytest.raises(Refused) as refused:
        Bar(TWO).tell(ask.HandOff("1"))
    assert refused.value.accepted == ("bump 1.1", "bump 1.2")


# --- ids, numbers, times --------------------------------------------------------------------------


def rung(found: tuple[events.Event, ...]) -> events.RungIn:
    (event,) = found
    return cast(events.RungIn, event)


def test_ids_go_on_for_ever_and_numbers_begin_each_business_day() -> None:
    bar = Bar()
    first, second = rung(bar.tell(ring())), rung(bar.tell(ring()))
    # 12:00 plus 15 h is three in the night: still the same business day.
    late, next_day = rung(bar.tell(ring(), later=15 * HOUR)), rung(bar.tell(ring(), later=2 * HOUR))
    assert [each.order for each in (first, second, late, next_day)] == ["1", "2", "3", "4"]
    assert [each.number for each in (first, second, late, next_day)] == [1, 2, 3, 1]
    assert [each.day for each in (first, late, next_day)] == ["2026-03-02", "2026-03-02", "2026-03-03"]


def test_a_clock_that_steps_back_does_not_bring_time_back() -> None:
    bar = Bar(ring())
    second = rung(bar.tell(ring(), later=-DAY))
    assert (second.at, second.day, second.number) == (NOON, "2026-03-02", 2)
    third = rung(bar.tell(ring(), later=DAY + MINUTE))
    assert third.at == NOON + MINUTE


def test_a_changed_time_zone_does_not_open_a_day_anew() -> None:
    bar = Bar(ring())
    bar.tell(ask.OpenBook("b2", "Pacific/Pago_Pago", 4 * 60))
    found = rung(bar.tell(ring()))
    assert (found.day, found.number) == ("2026-03-02", 2)


def test_an_order_adds_up_quantity_times_unit() -> None:
    found = rung(Bar().tell(ring(a_line(quantity=3, unit=450), a_line("cocoa", unit=520))))
    assert found.totals.gross == 3 * 450 + 520


def test_something_else_sold_out_is_no_hindrance() -> None:
    assert Bar(ask.SellOut("matcha", True)).tell(ring())


def test_what_is_back_can_be_rung_in() -> None:
    assert Bar(ask.SellOut("milk", True), ask.SellOut("milk", False)).tell(ring())


# --- asking again changes nothing -----------------------------------------------------------------

AGAIN: dict[str, tuple[tuple[Command, ...], Command]] = {
    "start a running step": ((ring(), ask.StartStep("1.1", 5)), ask.StartStep("1.1", 5)),
    "start a finished step": ((ring(), ask.FinishSteps("1.1", (5,))), ask.StartStep("1.1", 5)),
    "finish finished steps": ((ring(), ask.FinishSteps("1.1", (1, 2))), ask.FinishSteps("1.1", (2, 1, 1))),
    "bump a bumped drink": ((ring(), ask.BumpDrink("1.1")), ask.BumpDrink("1.1")),
    "bump a bumped ticket": ((TWO, ask.BumpTicket("1")), ask.BumpTicket("1")),
    "start in a bumped drink": ((ring(), ask.BumpDrink("1.1")), ask.StartStep("1.1", 1)),
    "recall what is not made": ((ring(), ask.StartStep("1.1", 1)), ask.RecallDrink("1.1")),
    "recall a ticket still being made": ((TWO,), ask.RecallTicket("1")),
    "hand off twice": (HANDED, ask.HandOff("1")),
    "bump after hand-off": (HANDED, ask.BumpDrink("1.1")),
    "bump ticket after hand-off": (HANDED, ask.BumpTicket("1")),
    "finish after hand-off": (HANDED, ask.FinishSteps("1.1", (1,))),
    "take back what was not handed off": ((ring(), ask.BumpDrink("1.1")), ask.TakeBack("1")),
    "take back twice": ((*HANDED, ask.TakeBack("1")), ask.TakeBack("1")),
    "nothing together": ((ring(),), ask.Together(())),
    "reopen what was not begun": ((ring(), ask.FinishSteps("1.1", (1,))), ask.ReopenSteps("1.1", (2, 3))),
    "void twice": (VOID, ask.VoidTicket("1", "again")),
    "void a drink of a void ticket": (VOID, ask.VoidDrink("1.1", "again")),
    "void a void drink": ((TWO, ask.VoidDrink("1.1", "wrong")), ask.VoidDrink("1.1", "again")),
    "change to what it is": ((ring(),), ask.ChangeDrink("1.1", a_line())),
    "change twice": (
        (ring(), ask.ChangeDrink("1.1", a_line("cocoa")), ask.StartStep("1.1", 1)),
        ask.ChangeDrink("1.1", a_line("cocoa")),
    ),
    "one of three to what it is": ((ring(a_line(quantity=3)),), ask.ChangeDrink("1.2", a_line())),
    "remake what no hand has been at": ((ring(),), ask.RemakeDrink("1.1", "spilled", None, {})),
    "remake twice": (
        (ring(), ask.BumpDrink("1.1"), ask.RemakeDrink("1.1", "spilled", None, {})),
        ask.RemakeDrink("1.1", "spilled", None, {}),
    ),
    "sell out twice": ((ask.SellOut("milk", True),), ask.SellOut("milk", True)),
    "back on what never went": ((), ask.SellOut("milk", False)),
    "open the open book": ((), OPEN),
}


@pytest.mark.parametrize("name", AGAIN)
def test_asking_for_what_already_is_changes_nothing_and_is_no_error(name: str) -> None:
    before, command = AGAIN[name]
    assert Bar(*before).tell(command) == ()


# --- working a drink ------------------------------------------------------------------------------


def test_a_timer_is_kept_as_its_start() -> None:
    bar = Bar(ring())
    bar.tell(ask.StartStep("1.1", 5), later=20 * SECOND)
    bar.tell(ask.FinishSteps("1.1", (4, 5)), later=40 * SECOND)
    step = bar.state.tickets["1"].drinks[0].steps
    assert (step[4].started_at, step[4].finished_at) == (NOON + 20 * SECOND, NOON + 60 * SECOND)
    assert (step[3].started_at, step[3].finished_at) == (None, NOON + 60 * SECOND)


def test_a_bump_finishes_what_is_open_and_keeps_what_was_done() -> None:
    bar = Bar(ring(), ask.FinishSteps("1.1", (1,)))
    bar.tell(ask.StartStep("1.1", 5), later=SECOND)
    bar.tell(ask.BumpDrink("1.1"), later=SECOND)
    drink = bar.state.tickets["1"].drinks[0]
    assert {step.state for step in drink.steps} == {"done"}
    assert drink.steps[0].finished_at == NOON
    assert drink.steps[4].finished_at == drink.bumped_at == NOON + 2 * SECOND


def test_a_ticket_is_ready_at_its_last_bump() -> None:
    bar = Bar(TWO)
    assert ticket_state(bar.state.tickets["1"]) == "waiting"
    bar.tell(ask.BumpDrink("1.2"), later=MINUTE)
    assert (ticket_state(bar.state.tickets["1"]), ready_at(bar.state.tickets["1"])) == ("making", None)
    bar.tell(ask.BumpDrink("1.1"), later=MINUTE)
    assert ticket_state(bar.state.tickets["1"]) == "ready"
    assert ready_at(bar.state.tickets["1"]) == NOON + 2 * MINUTE


def test_a_recall_brings_a_drink_back_as_it_stood_before_the_bump() -> None:
    bar = Bar(ring(), ask.FinishSteps("1.1", (1, 2)), ask.StartStep("1.1", 5))
    before = bar.state.tickets["1"].drinks[0]
    bar.tell(ask.BumpDrink("1.1"), later=MINUTE)
    bar.tell(ask.RecallDrink("1.1"), later=MINUTE)
    assert bar.state.tickets["1"].drinks[0] == before
    assert [step.state for step in before.steps] == ["done", "done", "todo", "todo", "running", "todo"]
    assert bar.tell(ask.BumpDrink("1.1"))


LAST_TOUCH = ask.OpenBook("b2", "Europe/Lisbon", 4 * 60, last_touch=True)


def test_a_drink_is_bumped_by_what_does_its_last_step_where_the_book_says_so() -> None:
    bar = Bar(ring(), LAST_TOUCH)
    assert bar.tell(ask.FinishSteps("1.1", (1, 2, 3, 4))) == (
        events.StepsFinished(NOON, "1.1", (1, 2, 3, 4)),
    )
    # The last station's step is done before another one: still to make.
    assert len(bar.tell(ask.FinishSteps("1.1", (6,)))) == 1
    bar.tell(ask.StartStep("1.1", 5))
    last = bar.tell(ask.FinishSteps("1.1", (5,)), later=MINUTE)
    then = NOON + MINUTE
    assert last == (events.StepsFinished(then, "1.1", (5,)), events.DrinkBumped(then, "1.1"))
    assert ticket_state(bar.state.tickets["1"]) == "ready"
    # The same touch from a second screen comes too late to do anything.
    assert bar.tell(ask.FinishSteps("1.1", (5,))) == bar.tell(ask.BumpDrink("1.1")) == ()


def test_a_drink_bumped_by_its_last_touch_comes_back_and_is_bumped_by_it_again() -> None:
    bar = Bar(ring(), LAST_TOUCH, ask.FinishSteps("1.1", (1, 2, 3, 4, 5, 6)))
    bar.tell(ask.RecallDrink("1.1"))
    drink = bar.state.tickets["1"].drinks[0]
    assert [step.state for step in drink.steps] == ["done"] * 5 + ["todo"]
    assert bar.tell(ask.FinishSteps("1.1", (6,)))[-1] == events.DrinkBumped(NOON, "1.1")


def test_alike_cups_done_together_are_bumped_together() -> None:
    bar = Bar(ring(a_line(quantity=3)), LAST_TOUCH)
    every = tuple(ask.FinishSteps(f"1.{n}", (1, 2, 3, 4, 5, 6)) for n in (1, 2))
    found = bar.tell(ask.Together(every))
    assert [type(event) for event in found] == [events.StepsFinished, events.DrinkBumped] * 2
    assert [drink.state for drink in bar.state.tickets["1"].drinks] == ["made", "made", "waiting"]


def test_by_hand_a_drink_waits_for_its_bump_however_done_it_is() -> None:
    bar = Bar(ring(), LAST_TOUCH, OPEN)
    assert len(bar.tell(ask.FinishSteps("1.1", (1, 2, 3, 4, 5, 6)))) == 1
    assert bar.state.tickets["1"].drinks[0].state == "making"


def test_a_drink_bumped_by_mistake_before_any_work_comes_back_untouched() -> None:
    bar = Bar(ring())
    before = bar.state.tickets["1"].drinks[0]
    bar.tell(ask.BumpDrink("1.1"))
    bar.tell(ask.RecallDrink("1.1"))
    assert bar.state.tickets["1"].drinks[0] == before
    assert before.state == "waiting"


def test_a_drink_all_done_comes_back_with_its_last_station_to_do_again() -> None:
    done = ask.FinishSteps("1.1", (1, 2, 3, 4, 5))
    bar = Bar(ring(a_line(work=WORK[:5])), done, ask.BumpDrink("1.1"), ask.RecallDrink("1.1"))
    assert [s.state for s in bar.state.tickets["1"].drinks[0].steps] == ["done"] * 3 + ["todo"] * 2


def test_a_recalled_ticket_is_no_longer_ready() -> None:
    bar = Bar(TWO, ask.BumpTicket("1"), ask.RecallTicket("1"))
    assert ticket_state(bar.state.tickets["1"]) == "waiting"
    with pytest.raises(Refused, match="not ready"):
        bar.tell(ask.HandOff("1"))


def test_a_void_tells_whether_hands_had_been_at_it() -> None:
    bar = Bar(TWO, ask.StartStep("1.2", 1))
    assert bar.tell(ask.VoidTicket("1", "left")) == (
        events.DrinkVoided(NOON, "1.1", "left", begun=False),
        events.DrinkVoided(NOON, "1.2", "left", begun=True),
    )
    assert bar.state.tickets == {}


def test_with_a_void_drink_the_others_go_out() -> None:
    bar = Bar(TWO, ask.VoidDrink("1.2", "wrong"), ask.BumpTicket("1"))
    assert bar.tell(ask.HandOff("1")) == (events.HandedOff(NOON, "1"),)


def test_the_last_drink_voided_takes_its_ticket_along() -> None:
    bar = Bar(TWO, ask.VoidDrink("1.2", "wrong"), ask.VoidDrink("1.1", "wrong"))
    assert "1" not in bar.state.tickets
    assert bar.state.closed["1"] == ("2026-03-02", "void")


def test_open_tickets_stay_over_the_end_of_the_day() -> None:
    bar = Bar(ring())
    bar.tell(ring(), later=DAY)
    bar.tell(ask.BumpDrink("1.1"))
    bar.tell(ask.HandOff("1"))
    assert bar.state.closed["1"] == ("2026-03-02", "handed off")
    assert bar.state.days["2026-03-02"].last == bar.state.position
