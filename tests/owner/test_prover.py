"""The proof's process: what is told of it while it runs and at its end."""

from __future__ import annotations

import threading
from pathlib import Path

import pytest

from recipes.book import Book
from service.bench.proving.prover import Prover
from tests.proof.books import COMBINATIONS, GOOD, WARMER, bar, iced

LIMIT_S = 60.0


@pytest.mark.parametrize(("drink", "state"), [(GOOD, "holds"), (WARMER, "fails")])
def test_a_proof_is_told_as_ended_only_when_what_follows_from_it_is_done(
    tmp_path: Path, drink: str, state: str
) -> None:
    """Else the bench would call a version published that the register does not have yet."""
    book, told, go_on = bar(iced=drink), threading.Event(), threading.Event()
    ended = threading.Event()
    prover = Prover(tmp_path, jobs=1)

    def opens(of: Book, holds: bool) -> None:
        assert holds is (state == "holds")
        told.set()
        assert go_on.wait(LIMIT_S)
        ended.set()

    try:
        prover.start(book, opens)
        assert told.wait(LIMIT_S)
        while_opening = prover.status(book)
        assert (while_opening.state, while_opening.done) == ("running", COMBINATIONS)
        assert prover.holds(book) is (state == "holds")
        go_on.set()
        assert ended.wait(LIMIT_S)
        for thread in threading.enumerate():
            if thread.name == "proof":
                thread.join(LIMIT_S)
        assert prover.status(book).state == state
    finally:
        go_on.set()
        prover.stop()


def test_a_proof_that_is_known_is_told_at_once(tmp_path: Path) -> None:
    """A second prover on the same folder finds what the first has kept, and starts no process."""
    book, ended = bar(iced=iced()), threading.Event()
    first = Prover(tmp_path, jobs=1)
    first.start(book, lambda of, holds: ended.set())
    assert ended.wait(LIMIT_S)
    heard: list[tuple[str, bool]] = []
    second = Prover(tmp_path, jobs=1)
    second.start(book, lambda of, holds: heard.append((of.version, holds)))
    assert heard == [(book.version, True)]
    assert second.status(book).state == "holds"
