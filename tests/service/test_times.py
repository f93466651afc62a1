"""Times of a day: percentiles against other implementations, days and lives against a story written out."""

from __future__ import annotations

import statistics

import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.calendar.days import Calendar
from service.orders import commands as ask
from service.orders.commands import Command
from service.orders.events import OrderEvent, order_of
from service.times.life import marks, spans
from service.times.record import OrderRecord, record
from service.times.review import review
from service.times.spread import Spread, quantile, spread
from tests.service.samples import HOUR, MINUTE, NOON, SECOND, Bar, a_line, ring

LISBON = Calendar("Europe/Lisbon", 4 * 60)
STATIONS = {"scoop": "Scoop", "tea": "Tea", "shake": "Shake", "seal": "Seal"}

VALUES = st.lists(st.floats(0, 1e6), min_size=2, max_size=60)


@given(VALUES)
def test_percentiles_agree_with_the_language(values: list[float]) -> None:
    """Hyndman and Fan (1996), definition 7, is what statistics.quantiles calls inclusive."""
    expected = statistics.quantiles(values, n=20, method="inclusive")
    ordered = sorted(values)
    assert quantile(ordered, 0.50) == pytest.approx(expected[9])
    assert quantile(ordered, 0.90) == pytest.approx(expected[17])
    assert quantile(ordered, 0.95) == pytest.approx(expected[18])


@given(VALUES, st.floats(0, 1))
def test_percentiles_agree_with_numpy(values: list[float], share: float) -> None:
    expected = numpy.quantile(values, share, method="linear")
    assert quantile(sorted(values), share) == pytest.approx(float(expected), rel=1e-9, abs=1e-9)


def test_one_time_is_every_percentile_and_none_are_none() -> None:
    assert spread([90_000]) == Spread(1, 90.0, 90.0, 90.0, 90.0)
    assert spread([]) == Spread(0, None, None, None, None)


# --- a story --------------------------------------------------------------------------------------


def told(bar: Bar, order: str = "1") -> OrderRecord:
    return record(story(bar, order))


def story(bar: Bar, order: str = "1") -> list[OrderEvent]:
    return [event for event in bar.events if isinstance(event, OrderEvent) and order_of(event) == order]


def play(*scenes: tuple[Command, int]) -> Bar:
    """Each command so many seconds after the one before."""
    bar = Bar()
    for command, later in scenes:
        bar.tell(command, later=later * SECOND)
    return bar


RECALLED = play(
    (ring(), 0),
    (ask.FinishSteps("1.1", (1, 2)), 30),  # at 0:30, untimed: the wait before it is a wait
    (ask.FinishSteps("1.1", (3,)), 20),  # at 0:50, untimed: 20 s at the tea
    (ask.StartStep("1.1", 5), 10),  # at 1:00, after 10 s idle
    (ask.FinishSteps("1.1", (4, 5)), 40),  # at 1:40
    (ask.BumpDrink("1.1"), 20),  # at 2:00
    (ask.RecallDrink("1.1"), 60),  # at 3:00
    (ask.BumpDrink("1.1"), 30),  # at 3:30
    (ask.HandOff("1"), 30),  # at 4:00
)


def test_the_life_of_a_drink_is_told_without_a_gap() -> None:
    order = told(RECALLED)
    found = [
        (span.kind, span.station, (span.start - NOON) // SECOND, ((span.end or 0) - NOON) // SECOND)
        for span in spans(order, order.drinks[0])
    ]
    assert found == [
        ("waiting", None, 0, 30),
        ("step", "tea", 30, 50),
        ("idle", None, 50, 60),
        ("step", "shake", 60, 100),
        ("step", "seal", 100, 120),
        ("made", None, 120, 180),
        ("step", "seal", 180, 210),
        ("made", None, 210, 240),
    ]


def test_what_happened_to_an_order_is_marked() -> None:
    found = [(mark.what, (mark.at - NOON) // SECOND) for mark in marks(story(RECALLED))]
    assert found == [
        ("rung in", 0),
        ("Large Taro made", 120),
        ("Large Taro recalled", 180),
        ("Large Taro made", 210),
        ("handed off", 240),
    ]


def test_drinks_alike_are_told_apart_by_their_place() -> None:
    bar = play((ring(a_line(), a_line()), 0), (ask.BumpDrink("1.2"), 9), (ask.VoidDrink("1.1", "spilt"), 9))
    assert [mark.what for mark in marks(story(bar))] == [
        "rung in",
        "Large Taro (2 of 2) made",
        "Large Taro (1 of 2) voided: spilt",
    ]


def test_a_recall_puts_off_when_an_order_was_ready() -> None:
    assert told(RECALLED).ready_at == NOON + 210 * SECOND
    assert told(play((ring(), 0), (ask.BumpDrink("1.1"), 9), (ask.RecallDrink("1.1"), 9))).ready_at is None


def test_after_a_recall_timers_count_again_but_not_the_time_it_stood_made() -> None:
    """At the shaker: 20 s before a bump by mistake, 15 s after the recall; then 7 s at the seal."""
    bar = play(
        (ring(), 0),
        (ask.StartStep("1.1", 5), 10),
        (ask.BumpDrink("1.1"), 20),
        (ask.RecallDrink("1.1"), 600),
        (ask.FinishSteps("1.1", (5,)), 15),
        (ask.StartStep("1.1", 6), 3),
        (ask.BumpDrink("1.1"), 7),
    )
    timed = [(run.step, run.end - run.start) for run in told(bar).drinks[0].runs if run.start and run.end]
    assert timed == [(5, 20 * SECOND), (5, 15 * SECOND), (6, 7 * SECOND)]


def test_a_timer_begun_anew_after_a_bump_by_mistake_ends_with_the_next_bump() -> None:
    bar = play(
        (ring(), 0),
        (ask.BumpDrink("1.1"), 20),
        (ask.RecallDrink("1.1"), 5),
        (ask.StartStep("1.1", 3), 5),
        (ask.BumpDrink("1.1"), 40),
    )
    order = told(bar)
    assert [run.end - run.start for run in order.drinks[0].runs if run.start and run.end] == [40 * SECOND]
    assert order.drinks[0].running == ()


def test_a_step_reopened_after_a_recall_counts_in_no_time() -> None:
    bar = play(
        (ring(), 0),
        (ask.StartStep("1.1", 5), 10),
        (ask.BumpDrink("1.1"), 20),
        (ask.RecallDrink("1.1"), 60),
        (ask.ReopenSteps("1.1", (5,)), 5),
    )
    order = told(bar)
    assert [run for run in order.drinks[0].runs if run.start is not None] == []
    assert order.state == "waiting"


def test_a_life_still_going_on_has_an_open_end() -> None:
    order = told(play((ring(), 0), (ask.StartStep("1.1", 5), 10)))
    (waiting, shaking) = spans(order, order.drinks[0])
    assert (waiting.kind, waiting.end) == ("waiting", NOON + 10 * SECOND)
    assert (shaking.kind, shaking.label, shaking.end) == ("step", "Shake", None)


def test_a_void_ends_a_life() -> None:
    order = told(play((ring(), 0), (ask.StartStep("1.1", 5), 10), (ask.VoidTicket("1", "left"), 5)))
    assert [span.kind for span in spans(order, order.drinks[0])] == ["waiting", "step"]
    assert spans(order, order.drinks[0])[-1].end == NOON + 15 * SECOND
    assert (order.state, order.void_reason) == ("void", "left")


# --- a day ----------------------------------------------------------------------------------------


def test_a_day_in_review() -> None:
    bar = play(
        (ring(), 0),  # 1: made after 60 s, handed off after 90 s
        (ask.StartStep("1.1", 5), 10),
        (ask.FinishSteps("1.1", (5,)), 45),
        (ask.BumpDrink("1.1"), 5),
        (ask.HandOff("1"), 30),
        (ring(a_line(), a_line("cocoa")), 3600),  # 2, in the next hour: one drink void, other after 120 s
        (ask.VoidDrink("2.2", "wrong"), 20),
        (ask.BumpDrink("2.1"), 100),
        (ring(), 0),  # 3: void
        (ask.VoidTicket("3", "left"), 10),
        (ring(), 0),  # 4: still open
    )
    found = review([told(bar, str(n)) for n in range(1, 5)], LISBON, STATIONS)
    assert (found.open, found.void) == (2, 1)
    assert found.to_ready == spread([60_000, 120_000])
    assert found.to_hand_off == spread([90_000])
    assert [(group.id, group.spread.count) for group in found.by_hour] == [("12", 1), ("13", 1)]
    assert [(g.id, g.name, g.spread.count, g.spread.longest) for g in found.by_drink] == [
        ("taro", "Taro", 2, 120.0)
    ]
    assert [(g.id, g.spread.count, g.spread.p50) for g in found.by_station] == [("shake", 1, 45.0)]


def test_hours_stand_in_the_order_of_the_day_not_of_the_clock() -> None:
    bar = Bar(at=NOON + 11 * HOUR)
    bar.tell(ring())
    bar.tell(ring(), later=2 * HOUR)
    found = review([told(bar, "1"), told(bar, "2")], LISBON, STATIONS)
    assert [group.id for group in found.by_hour] == ["23", "1"]


def test_an_empty_day_has_no_figures() -> None:
    found = review([], LISBON, STATIONS)
    assert (found.to_ready.count, found.by_hour, found.by_station) == (0, (), ())


@given(st.lists(st.integers(0, 30 * MINUTE), min_size=1, max_size=20))
def test_times_are_never_negative(delays: list[int]) -> None:
    bar = Bar()
    for n, delay in enumerate(delays, start=1):
        bar.tell(ring(), later=-delay)
        bar.tell(ask.BumpDrink(f"{n}.1"), later=delay // 2)
    orders = [told(bar, str(n)) for n in range(1, len(delays) + 1)]
    assert all(order.ready_at is not None and order.ready_at >= order.rung_at for order in orders)
