"""The real clock."""

from __future__ import annotations

import time

AHEAD_MS = 5 * 60_000
"""How far the journal may be ahead of the clock (ms) before it is told: more than clocks are corrected by."""


def now_ms() -> int:
    """Milliseconds since 1970 UTC by the system's clock."""
    return time.time_ns() // 1_000_000


def doubt(last_at: int, now: int) -> str | None:
    """What is wrong with the clock, as far as the journal's last record (ms) tells; None if nothing is.

    No record is ever dated before the one before it, so after one wrong reading all carry that time until
    the clock has come up to it.
    """
    ahead = last_at - now
    if ahead <= AHEAD_MS:
        return None
    return (
        f"the journal's last record is dated {ahead // 60_000} minutes ahead of this machine's clock: one of "
        "the two is wrong, and times stand still until the clock has come up to it"
    )
