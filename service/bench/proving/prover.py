"""The proof beside the service: in a process of its own, so that the shop's loop never waits for it.

``python -m service.bench.proving.prover`` is that process: it takes a job as JSON on its standard input and
tells progress on its standard output. What it proves is kept, part by part, in the store's folder; ended
at any moment, the next run goes on from there.
"""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import threading
from collections.abc import Callable
from pathlib import Path
from time import monotonic

from recipes.book import Book
from recipes.reading.reader import parse_book
from service.bench import wire
from service.bench.proving.proofs import State, holds, proof_message
from service.bench.proving.proving import ProofStore, Proving, load, prove
from service.host.child import end_with
from service.host.log import LOG

NICER = 10
"""How far the proof stands back for the shop (steps of nice)."""

OnDone = Callable[[Book, bool], None]
"""Told when a book's proof is complete, with whether it holds."""


class Prover:
    """Proves one book at a time; a newer one takes the place of the one at work."""

    def __init__(self, folder: Path, jobs: int | None = None) -> None:
        self._folder = folder
        self._store = ProofStore(folder)
        self._jobs = jobs or max(1, (os.cpu_count() or 2) - 1)
        self._lock = threading.RLock()
        self._known: dict[str, bool | None] = {}
        self._complete: dict[str, wire.Proof] = {}
        self._child: subprocess.Popen[str] | None = None
        self._at_work: str | None = None
        self._progress = (0, 0)
        self._begun = 0.0

    def holds(self, book: Book) -> bool | None:
        """Whether a book's proof holds; None while it is not complete."""
        with self._lock:
            if book.version not in self._known:
                proving = load(book, self._store)
                self._known[book.version] = holds(proving.drinks()) if proving.complete else None
            return self._known[book.version]

    def status(self, book: Book) -> wire.Proof:
        """The proof of a book as far as it has come; it runs until whoever waits for its end was told."""
        if book.version in self._complete:
            return self._complete[book.version]
        proving = load(book, self._store)
        drinks = proving.drinks()
        done, total, seconds = proving.done, proving.total, 0.0
        with self._lock:
            running = self._at_work == book.version
            if running:
                done = max(done, self._progress[0])
                seconds = monotonic() - self._begun
        if proving.complete and not running:
            told = proof_message(book, drinks, "holds" if holds(drinks) else "fails", total, total, 0.0)
            self._complete = {book.version: told}
            return told
        state: State = "running" if running else "stopped" if proving.parts else "none"
        return proof_message(book, drinks, state, done, total, seconds)

    def start(self, book: Book, on_done: OnDone) -> None:
        """Prove a book, or go on with it. Without effect while that book is at work."""
        with self._lock:
            if self._at_work == book.version:
                return
            self.stop()
            known = self.holds(book)
            if known is None:
                self._begun, self._progress, self._at_work = monotonic(), (0, 0), book.version
                self._child = self._spawn(book)
                follow = threading.Thread(
                    target=self._follow, args=(self._child, book, on_done), name="proof", daemon=True
                )
                follow.start()
                return
        on_done(book, known)

    def stop(self) -> None:
        """End the proof at work; what is done stays."""
        with self._lock:
            child, self._child, self._at_work = self._child, None, None
        if child is not None:
            child.terminate()
            child.wait()

    def _spawn(self, book: Book) -> subprocess.Popen[str]:
        child = subprocess.Popen(
            [sys.executable, "-m", "service.bench.proving.prover"],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            # Imported as here, wherever the service was started from.
            env={**os.environ, "PYTHONPATH": os.pathsep.join(path for path in sys.path if path)},
        )
        assert child.stdin is not None
        job = {
            "parent": os.getpid(),
            "files": dict(book.files),
            "store": str(self._folder),
            "jobs": self._jobs,
        }
        child.stdin.write(json.dumps(job))
        child.stdin.close()
        return child

    def _follow(self, child: subprocess.Popen[str], book: Book, on_done: OnDone) -> None:
        """Read a child's progress to its end."""
        assert child.stdout is not None
        with child.stdout as lines:
            for line in lines:
                done, _, total = line.partition(" ")
                self._progress = (int(done), int(total))
        code = child.wait()
        with self._lock:
            if self._child is not child:
                return
            self._child = None
            self._known.pop(book.version, None)
            known = self.holds(book)
        try:
            if known is not None:
                on_done(book, known)
        finally:
            with self._lock:
                if self._child is None and self._at_work == book.version:
                    self._at_work = None
        if known is None:
            LOG.error(
                "The proof of book %s ended early (exit code %s); it can be gone on with.", book.version, code
            )


def main() -> int:
    """The child: one job from stdin; progress as lines "done total"."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    # Told to end, it leaves in order: workers ended and their semaphores given back.
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(0))
    job = json.load(sys.stdin)
    end_with(job["parent"])
    os.nice(NICER)

    def tell(proving: Proving) -> None:
        print(proving.done, proving.total, flush=True)

    prove(parse_book(job["files"]), ProofStore(Path(job["store"])), job["jobs"], tell)
    return 0


if __name__ == "__main__":
    sys.exit(main())
