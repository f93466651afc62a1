"""The business day by the shop's clock. Expected moments are written with the language's own calendar."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from service.calendar.days import Calendar, business_day, local_time, read_day

LISBON = Calendar("Europe/Lisbon", 4 * 60)


def at(text: str) -> int:
    return round(datetime.fromisoformat(text).replace(tzinfo=UTC).timestamp() * 1000)


@pytest.mark.parametrize(
    ("moment", "day"),
    [
        ("2026-03-02T12:00", "2026-03-02"),
        ("2026-03-03T01:30", "2026-03-02"),  # after midnight, before the day starts
        ("2026-03-03T03:59:59.999", "2026-03-02"),
        ("2026-03-03T04:00", "2026-03-03"),
        ("2026-07-01T02:59", "2026-06-30"),  # summer: 03:59 on the wall
        ("2026-07-01T03:00", "2026-07-01"),  # summer: 04:00 on the wall
        # Clocks in Portugal go forward at 01:00 UTC on the last Sunday of March, back on that of October.
        ("2026-03-29T02:59", "2026-03-28"),
        ("2026-03-29T03:00", "2026-03-29"),
        ("2026-10-25T03:59", "2026-10-24"),
        ("2026-10-25T04:00", "2026-10-25"),
    ],
)
def test_a_day_runs_from_four_to_four_on_the_wall_clock(moment: str, day: str) -> None:
    assert business_day(at(moment), LISBON) == day


def test_days_differ_between_time_zones() -> None:
    moment = at("2026-03-02T20:00")
    assert business_day(moment, Calendar("Asia/Taipei", 0)) == "2026-03-03"
    assert business_day(moment, Calendar("America/Toronto", 0)) == "2026-03-02"


def test_the_hour_is_that_on_the_wall() -> None:
    assert local_time(at("2026-07-01T12:00"), LISBON).hour == 13


@pytest.mark.parametrize("text", ["2026-02-30", "20260301", "2026-3-1", "today", "", "2026-W10-1"])
def test_what_is_no_day_is_refused(text: str) -> None:
    assert read_day(text) is None


def test_a_day_is_read() -> None:
    assert read_day("2028-02-29") == "2028-02-29"
