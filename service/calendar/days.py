"""The business day: which day's work a moment belongs to, and its hour on the shop's clock.

A bar that closes at one in the morning counts that hour to the evening before: its day runs from
``day_starts`` to ``day_starts`` on the wall clock, also on the two days a year of 23 or 25 hours.
The time-zone data that ``zoneinfo`` reads is fixed data of the language, not state of the program.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

EPOCH = datetime(1970, 1, 1, tzinfo=UTC)


@dataclass(frozen=True, slots=True)
class Calendar:
    """The shop's time zone (an IANA name) and the minutes after midnight at which its day starts."""

    time_zone: str
    day_starts_min: int


def local_time(at: int, calendar: Calendar) -> datetime:
    """A moment (ms since 1970 UTC) on the shop's wall clock."""
    return (EPOCH + timedelta(milliseconds=at)).astimezone(ZoneInfo(calendar.time_zone))


def business_day(at: int, calendar: Calendar) -> str:
    """The business day of a moment, as YYYY-MM-DD."""
    wall = local_time(at, calendar).replace(tzinfo=None)
    return (wall - timedelta(minutes=calendar.day_starts_min)).date().isoformat()


def read_day(text: str) -> str | None:
    """The day that a text YYYY-MM-DD names, or None if it names none."""
    try:
        day = date.fromisoformat(text)
    except ValueError:
        return None
    return text if day.isoformat() == text else None
