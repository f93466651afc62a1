"""The log: one line for each thing that happened, and nothing else."""

from __future__ import annotations

import logging
import sys

LOG = logging.getLogger("levelscoop")


def set_up() -> None:
    """Send our lines to stderr with the time, and keep the libraries quiet."""
    handler = logging.StreamHandler(sys.stderr)
    handler.setFormatter(logging.Formatter("%(asctime)s %(message)s", "%H:%M:%S"))
    LOG.handlers[:] = [handler]
    LOG.propagate = False
    LOG.setLevel(logging.INFO)
    for name in ("engineio", "socketio", "geventwebsocket", "werkzeug"):
        logging.getLogger(name).setLevel(logging.CRITICAL)
