"""Heavy work apart from the shop: pure functions in a process of their own, so that the loop never waits.

A thread would share the interpreter with the loop, and could not be ended. ``python -m service.host.apart``
is that process: jobs and results travel as pickles over the socket on its standard input. It stays for the
next job, leaves when there is none for a while, and ends with its parent.
"""

from __future__ import annotations

import importlib
import os
import pickle
import select
import signal
import socket
import subprocess
import sys
import threading
from collections.abc import Callable
from types import FrameType
from typing import Any, TypeVar

from service.host.child import end_with

NICER = 5
"""How far such work stands back for the shop (steps of nice)."""

IDLE_S = 60.0
"""How long the process waits for another job (s)."""

GUARD = 3.0
START_S = 10.0
"""By the clock, a job that does not end itself is ended after so many times its limit and this (s)."""

T = TypeVar("T")


class TooLong(BaseException):
    """A job took more work than it may. No ``Exception``: a job must not catch it as one of its own."""


class WorkFailed(Exception):
    """A job raised something, or its process was ended; the text says what."""


class Ended(Exception):
    """The service is ending: nothing is worked out any more."""


class Apart:
    """Runs functions in other processes; safe to use from several threads. ``preload`` names a module."""

    def __init__(self, preload: str) -> None:
        self._preload = preload
        self._lock = threading.Lock()
        self._idle: list[_Child] = []
        self._busy: set[_Child] = set()
        self._closed = False

    def warm(self) -> None:
        """Have a process at hand for the first job."""
        self._give_back(_Child(self._preload))

    def do(self, work: Callable[..., T], *arguments: object, limit_s: float) -> T:
        """The result of a function that can be named and its arguments; raises TooLong, WorkFailed, Ended.

        ``limit_s`` counts the work done (s of the processor), so that a busy machine refuses nothing.
        """
        job = pickle.dumps((work, arguments, limit_s))
        while True:
            child, used = self._take()
            try:
                kind, found = child.ask(job, GUARD * limit_s + START_S)
            except TimeoutError as error:
                self._drop(child)
                raise TooLong from error
            except (OSError, EOFError, pickle.UnpicklingError) as error:
                self._drop(child)
                if self._closed:
                    raise Ended from error
                if used:
                    continue  # It left, having waited long enough, just as it was to be used again.
                raise WorkFailed("its process was ended") from error
            self._give_back(child)
            if kind == "done":
                result: T = found
                return result
            if kind == "long":
                raise TooLong
            raise WorkFailed(found)

    def close(self) -> None:
        """End what is at work and what waits."""
        with self._lock:
            self._closed = True
            children = [*self._idle, *self._busy]
            self._idle.clear()
        for child in children:
            child.end()

    def _take(self) -> tuple[_Child, bool]:
        with self._lock:
            if self._closed:
                raise Ended
            used = bool(self._idle)
            child = self._idle.pop() if used else _Child(self._preload)
            self._busy.add(child)
        return child, used

    def _give_back(self, child: _Child) -> None:
        with self._lock:
            self._busy.discard(child)
            keep = not self._idle and not self._closed
            if keep:
                self._idle.append(child)
        if not keep:
            child.end()

    def _drop(self, child: _Child) -> None:
        with self._lock:
            self._busy.discard(child)
        child.end()


class _Child:
    """One such process, as its parent sees it."""

    def __init__(self, preload: str) -> None:
        self._link, theirs = socket.socketpair()
        with theirs:
            self._process = subprocess.Popen(
                [sys.executable, "-m", "service.host.apart", str(os.getpid()), preload],
                stdin=theirs.fileno(),
                # Imported as here, wherever the service was started from.
                env={**os.environ, "PYTHONPATH": os.pathsep.join(path for path in sys.path if path)},
            )

    def ask(self, job: bytes, patience_s: float) -> tuple[str, Any]:
        """What became of a job: "done" and the result, "long", or "failed" and why."""
        self._link.settimeout(patience_s)
        self._link.sendall(job)
        with self._link.makefile("rb") as answer:
            found: tuple[str, Any] = pickle.load(answer)
        return found

    def end(self) -> None:
        # Ended first: whoever waits for its answer then finds the end of it.
        self._process.kill()
        self._process.wait()
        self._link.close()


def _run(work: Callable[..., Any], arguments: tuple[object, ...], limit_s: float) -> tuple[str, Any]:
    try:
        signal.setitimer(signal.ITIMER_PROF, limit_s)
        try:
            return "done", work(*arguments)
        finally:
            signal.setitimer(signal.ITIMER_PROF, 0)
    except TooLong:
        return "long", None
    except Exception as error:
        return "failed", f"{type(error).__name__}: {error}"


def _too_long(number: int, frame: FrameType | None) -> None:
    raise TooLong


def main() -> int:
    """The process: one job after the other. Ctrl-C is the parent's to answer."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGPROF, _too_long)
    end_with(int(sys.argv[1]))
    os.nice(NICER)
    importlib.import_module(sys.argv[2])
    link = socket.socket(fileno=os.dup(0))
    link.setblocking(True)
    with link, link.makefile("rwb") as jobs:
        while select.select([link], [], [], IDLE_S)[0]:
            try:
                work, arguments, limit_s = pickle.load(jobs)
            except EOFError:
                break
            pickle.dump(_run(work, arguments, limit_s), jobs)
            jobs.flush()
    return 0


if __name__ == "__main__":
    sys.exit(main())
