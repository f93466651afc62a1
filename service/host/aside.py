"""Work of a fifth of a second that must not hold up the shop: done in a thread beside its loop.

Only for pure functions: what they touch must be no one else's.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from gevent import get_hub
from gevent.monkey import is_module_patched

T = TypeVar("T")


def aside(work: Callable[[], T]) -> T:
    """The result of ``work``; where the process is cooperative, others are served meanwhile."""
    if not is_module_patched("socket"):
        return work()
    found: T = get_hub().threadpool.apply(work)
    return found
