"""A child process of ours: it never outlives whoever started it."""

from __future__ import annotations

import ctypes
import os
import signal
import sys

PDEATHSIG = 1
"""PR_SET_PDEATHSIG of Linux's prctl."""


def end_with(parent: int) -> None:
    """Have the system end this process when its parent (by its process id) ends, however that happens."""
    if sys.platform == "linux":
        ctypes.CDLL(None).prctl(PDEATHSIG, signal.SIGKILL)
    if os.getppid() != parent:
        # It ended before we could ask.
        os._exit(1)
