"""A shop that really runs: the program as a child process on loopback, with its own data folder.

Shared by the browser tests, the pictures and the benchmarks. It waits for the line in which the service
prints the bar's address, which it does only once orders can be rung in.
"""

from __future__ import annotations

import json
import os
import signal
import socket
import subprocess
import sys
import threading
import urllib.request
import uuid
from pathlib import Path
from typing import Any, Self

PATIENCE_S = 30.0


def free_port() -> int:
    """A TCP port of loopback that nobody holds at this moment."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port


class RunningShop:
    """``levelscoop serve`` on a free port; a context manager that stops it and what it started."""

    def __init__(self, data: Path, port: int | None = None, **environment: str) -> None:
        self.data = data
        self.port = port or free_port()
        self.url = f"http://127.0.0.1:{self.port}"
        self._environment = {
            **{name: value for name, value in os.environ.items() if name != "REDIS_URL"},
            "HOST": "127.0.0.1",
            "PORT": str(self.port),
            "DATA_DIR": str(data),
            "PYTHONUNBUFFERED": "1",
            **environment,
        }
        self.said: list[str] = []
        self._up = threading.Event()

    def __enter__(self) -> Self:
        self.start()
        return self

    def __exit__(self, *exception: object) -> None:
        self.stop()

    def start(self) -> None:
        """Start it and wait until orders can be rung in; raises with what it said if it does not."""
        self._up.clear()
        self.process = subprocess.Popen(
            [sys.executable, "-m", "service.cli.main", "serve"],
            env=self._environment,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
        )
        self._reader = threading.Thread(target=self._read, daemon=True)
        self._reader.start()
        if not self._up.wait(PATIENCE_S) or self.process.poll() is not None:
            self.stop()
            raise RuntimeError("the shop did not come up:\n" + "".join(self.said))

    def _read(self) -> None:
        assert self.process.stdout is not None
        for line in self.process.stdout:
            self.said.append(line)
            if f":{self.port}/bar" in line:
                self._up.set()
        self._up.set()

    def stop(self) -> None:
        """Ask it to stop, as Ctrl-C does, and wait until it has."""
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGINT)
            try:
                self.process.wait(PATIENCE_S)
            except subprocess.TimeoutExpired:
                self.process.kill()
                self.process.wait()
                raise
        self._reader.join(PATIENCE_S)
        if self.process.stdout is not None:
            self.process.stdout.close()

    def get(self, path: str) -> Any:  # noqa: ANN401
        """GET a JSON document of the shop."""
        with urllib.request.urlopen(self.url + path, timeout=PATIENCE_S) as answer:
            return json.load(answer)

    def post(self, path: str, body: dict[str, Any], key: str | None = None) -> Any:  # noqa: ANN401
        """POST a command under a key of its own, and its answer."""
        headers = {"Content-Type": "application/json", "Idempotency-Key": key or str(uuid.uuid4())}
        request = urllib.request.Request(self.url + path, json.dumps(body).encode(), headers, method="POST")
        with urllib.request.urlopen(request, timeout=PATIENCE_S) as answer:
            return json.load(answer)
