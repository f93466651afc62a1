"""Taste against hands, reckoned beside the service in a process of its own, as the proof is.

``python -m service.bench.trade_off`` is that process: it takes a book's files as JSON on its standard
input and tells progress ("done 25") and points (as JSON) on its standard output.
"""

from __future__ import annotations

import dataclasses
import json
import os
import random
import signal
import subprocess
import sys
import threading

from recipes.book import Book
from recipes.reading.reader import parse_book
from recipes.tuning.trade_off import Point, patiences, reckon, sample
from service.bench import wire
from service.bench.proving.prover import NICER
from service.host.child import end_with
from service.host.log import LOG

LINES, SEED = 1500, 1
"""How many lines are drawn, and with which seed: told on the page."""


class TradeOffDesk:
    """The trade-off of one book at a time; another book takes the place of the one at work."""

    def __init__(self, lines: int = LINES) -> None:
        self._lines = lines
        self._lock = threading.RLock()
        self._changed = threading.Condition(self._lock)
        self._child: subprocess.Popen[str] | None = None
        self._told = _message("", 0.0, lines, 0, [], "none")

    def status(self) -> wire.TradeOff:
        """How far it has come."""
        with self._lock:
            return self._told

    def start(self, book: Book) -> wire.TradeOff:
        """Reckon a book, or go on: without effect while it is that book's, at work or done."""
        with self._lock:
            if self._told.version == book.version and self._told.state in ("running", "done"):
                return self._told
            self.stop()
            total = self._lines * len(patiences(book))
            self._told = _message(book.version, book.hands.patience, self._lines, total, [], "running")
            self._child = _spawn(book, self._lines)
            follow = threading.Thread(
                target=self._follow, args=(self._child, book.version), name="trade-off", daemon=True
            )
            follow.start()
            return self._told

    def stop(self) -> None:
        """End the reckoning at work."""
        with self._lock:
            child, self._child = self._child, None
            if self._told.state == "running":
                self._told = self._told.model_copy(update={"state": "none"})
        if child is not None:
            child.terminate()
            child.wait()

    def wait(self, limit_s: float) -> bool:
        """Whether nothing is at work by then."""
        with self._changed:
            return self._changed.wait_for(lambda: self._told.state != "running", limit_s)

    def _follow(self, child: subprocess.Popen[str], version: str) -> None:
        assert child.stdout is not None
        with child.stdout as lines:
            for line in lines:
                with self._lock:
                    if self._child is child:
                        self._told = _with(self._told, line)
        code = child.wait()
        with self._changed:
            if self._child is not child:
                return
            self._child = None
            self._told = self._told.model_copy(update={"state": "failed" if code else "done"})
            self._changed.notify_all()
        if code:
            LOG.error("Taste against hands of book %s ended early (exit code %s).", version, code)


def _with(told: wire.TradeOff, line: str) -> wire.TradeOff:
    """What is known after one more line of the process."""
    word, _, rest = line.partition(" ")
    if word == "done":
        return told.model_copy(update={"done": told.done + int(rest)})
    point = wire.TradePoint(**json.loads(rest))
    return told.model_copy(update={"points": [*told.points, point]})


def _message(
    version: str, patience: float, lines: int, total: int, points: list[wire.TradePoint], state: str
) -> wire.TradeOff:
    return wire.TradeOff.model_validate(
        {
            "version": version, "state": state, "patience": patience, "lines": lines, "seed": SEED, "done": 0,
            "total": total, "points": points,
        }
    )  # fmt: skip


def _spawn(book: Book, lines: int) -> subprocess.Popen[str]:
    child = subprocess.Popen(
        [sys.executable, "-m", "service.bench.trade_off"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(path for path in sys.path if path)},
    )
    assert child.stdin is not None
    child.stdin.write(json.dumps({"parent": os.getpid(), "files": dict(book.files), "lines": lines}))
    child.stdin.close()
    return child


def main() -> int:
    """The child: one book from stdin, a point for each patience."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(0))
    job = json.load(sys.stdin)
    end_with(job["parent"])
    os.nice(NICER)
    book = parse_book(job["files"])
    lines = sample(book, job["lines"], random.Random(SEED).randrange)
    for patience in patiences(book):
        point: Point = reckon(book, lines, patience, lambda more: print("done", more, flush=True))
        print("point", json.dumps(dataclasses.asdict(point)), flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main())
