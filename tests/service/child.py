"""The service as a real process, to be killed and paused. Loopback only; everything it started is stopped."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Callable
from http.client import HTTPException
from pathlib import Path
from typing import Any, Self

from tests.running import free_port
from tests.service.shop import DRINK

UP_S = 60.0
"""How long anything here may take to come about (s); all of it takes a fraction on an idle machine."""

LOOK_S = 0.02

ORDER = {"drinks": [{"line": {"drink": DRINK}}]}


def until(condition: Callable[[], bool], what: str, seconds: float = UP_S) -> None:
    """Wait for something that another process does and cannot tell us of."""
    deadline = time.monotonic() + seconds
    while not condition():
        assert time.monotonic() < deadline, f"{what}: not within {seconds} s"
        time.sleep(LOOK_S)


class Service:
    """``levelscoop serve`` on one port and one data folder, started as often as wanted."""

    def __init__(self, data: Path, **environment: str) -> None:
        self.data = data
        self.log = data.with_name(f"{data.name}-{free_port()}.log")
        self.port = free_port()
        self.url = f"http://127.0.0.1:{self.port}"
        inherited = {name: value for name, value in os.environ.items() if name not in ("REDIS_URL", "BOOK")}
        self._environment = {
            **inherited,
            "HOST": "127.0.0.1",
            "PORT": str(self.port),
            "DATA_DIR": str(data),
            "PYTHONUNBUFFERED": "1",
            **environment,
        }

    def __enter__(self) -> Self:
        self.start()
        return self

    def __exit__(self, *_: object) -> None:
        self.stop()

    def launch(self) -> None:
        """Start the process, without waiting for it."""
        with self.log.open("ab") as log:
            self.process = subprocess.Popen(
                [sys.executable, "-m", "service.cli.main", "serve"],
                env=self._environment,
                stdin=subprocess.DEVNULL,
                stdout=log,
                stderr=log,
            )

    def start(self) -> None:
        """Start and wait until orders can be rung in."""
        self.launch()
        until(lambda: self.healthy() or self.process.poll() is not None, "the service comes up")
        assert self.process.poll() is None, self.said()

    def stop(self) -> int:
        """Stop as Ctrl-C does; the exit code."""
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGINT)
        return self.process.wait(UP_S)

    def kill(self) -> None:
        """Kill the service, which takes its Redis along."""
        self.process.kill()
        self.process.wait(UP_S)

    def said(self) -> str:
        return self.log.read_text(encoding="utf-8", errors="replace")

    def redis_pid(self) -> int:
        """The server's process id as it wrote it down; 0 while it is about to."""
        return int((self.data / "redis.pid").read_text(encoding="ascii").strip() or 0)

    def next_redis(self, before: int) -> int:
        """The process id of the server that runs after the one ``before`` was killed."""
        until(lambda: self.redis_pid() not in (0, before), "the next server")
        return self.redis_pid()

    def healthy(self) -> bool:
        try:
            return self.call("GET", "/healthz", timeout=2.0)[0] == 200
        except OSError:
            return False

    def call(
        self, method: str, path: str, body: object = None, key: str = "", timeout: float = 30.0
    ) -> tuple[int, Any]:
        """Status and answer. OSError when there is no answer at all."""
        data = None if body is None else json.dumps(body).encode()
        headers = {"Content-Type": "application/json"} if data else {}
        headers |= {"Idempotency-Key": key} if key else {}
        request = urllib.request.Request(self.url + path, data, headers, method=method)
        try:
            with urllib.request.urlopen(request, timeout=timeout) as answer:
                return answer.status, json.load(answer)
        except urllib.error.HTTPError as error:
            with error:
                return error.code, json.load(error)

    def get(self, path: str) -> Any:  # noqa: ANN401
        status, answer = self.call("GET", path)
        assert status == 200, answer
        return answer

    def ring_in(self, key: str, body: object = ORDER) -> Any:  # noqa: ANN401
        """Ring in as a register does: the same again under the same key until it is answered."""
        deadline = time.monotonic() + UP_S
        while True:
            try:
                status, answer = self.call("POST", "/api/orders", body, key)
            except (OSError, HTTPException):
                status, answer = 0, None
            if status == 201:
                return answer
            assert status in (0, 503), answer
            assert time.monotonic() < deadline, f"{key} was never answered"
            time.sleep(LOOK_S)
