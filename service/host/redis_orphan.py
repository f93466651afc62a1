"""An embedded server whose parent was killed: found by its pid file, and stopped cleanly.

Two servers on one folder would write the same file, so the next start waits until the first is gone.
"""

from __future__ import annotations

import logging
import os
import signal
import subprocess
from pathlib import Path
from time import monotonic, sleep

LOG = logging.getLogger("levelscoop")

NAMES = ("valkey-server", "redis-server")
"""What a server is called, as a program and as a process; the second where it is not the bundled one."""

PATIENCE_S = 10.0
"""How long an orphan may take to finish its writes (s) before it is killed."""


def stop_orphan(folder: Path) -> int | None:
    """Stop the server left on a folder, if there is one; its process id, or None."""
    pid = _left(folder)
    if pid is None:
        return None
    LOG.warning(
        "the journal's server of an earlier run (process %d) is still on %s: stopping it", pid, folder
    )
    for sign, patience in ((signal.SIGTERM, PATIENCE_S), (signal.SIGKILL, PATIENCE_S)):
        _send(pid, sign)
        _send(pid, signal.SIGCONT)
        deadline = monotonic() + patience
        while monotonic() < deadline:
            if _left(folder) != pid:
                return pid
            # A process that is not our child cannot be waited for: look again and again.
            sleep(0.02)
    return pid


def _left(folder: Path) -> int | None:
    """The process that the folder's pid file names, if it is a server of ours and still on the folder."""
    try:
        pid = int((folder / "redis.pid").read_text(encoding="ascii"))
    except (OSError, ValueError):
        return None
    return pid if _is_server(pid, folder) else None


def _is_server(pid: int, folder: Path) -> bool:
    about = Path("/proc") / str(pid)
    if about.parent.joinpath("self").exists():
        try:
            state = (about / "stat").read_text(encoding="ascii").rpartition(")")[2].split()[0]
            name = (about / "comm").read_text(encoding="ascii").strip()
            return state != "Z" and name in NAMES and (about / "cwd").samefile(folder)
        except OSError:
            return False
    told = subprocess.run(["ps", "-o", "comm=", "-p", str(pid)], capture_output=True, text=True, check=False)
    return any(name in told.stdout for name in NAMES)


def _send(pid: int, sign: signal.Signals) -> None:
    try:
        os.kill(pid, sign)
    except ProcessLookupError:
        return
