"""``levelscoop prove`` as a person or a machine calls it: exit codes, JSON, resuming, Ctrl-C."""

from __future__ import annotations

import json
import signal
import subprocess
import sys
import time
from pathlib import Path

import jsonschema
import pytest

from recipes.reading.reader import read_book
from service.bench import wire as bench_wire
from service.bench.proving.proving import ProofStore, load, prove
from service.cli.main import main
from tests.proof.books import COMBINATIONS, GOOD, WARMER, files, iced, write

PATIENCE_S = 240.0
"""How long a test waits for what must come, before it fails (s)."""


def test_it_ends_with_0_only_when_the_proof_holds(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    good = write(tmp_path / "good", files(iced=GOOD))
    assert main(["prove", str(good), "--jobs", "1"]) == 0
    assert "The proof holds." in capsys.readouterr().out
    bad = write(tmp_path / "bad", files(iced=WARMER))
    assert main(["prove", str(bad), "--jobs", "1"]) == 1
    assert "does not hold" in capsys.readouterr().out


def test_a_refused_book_is_told_fault_by_fault(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = write(tmp_path, files(iced=GOOD.replace('"120 ml"', '"-120 ml"')))
    assert main(["prove", str(folder)]) == 1
    assert "drinks/iced.toml:" in capsys.readouterr().err


def test_json_is_the_proof_of_the_api(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = write(tmp_path, files(iced=WARMER))
    assert main(["prove", str(folder), "--json", "--jobs", "1"]) == 1
    told = json.loads(capsys.readouterr().out)
    jsonschema.validate(told, bench_wire.Proof.model_json_schema(mode="serialization"))
    assert (told["state"], told["combinations"]) == ("fails", COMBINATIONS)


def test_only_what_changed_is_resolved_again(tmp_path: Path) -> None:
    other = GOOD.replace("Iced Tea", "Other Tea")
    folder, store = tmp_path / "book", ProofStore(tmp_path / "kept")
    first = prove(read_book(write(folder, files(iced=GOOD, other=other))), store, jobs=2)
    assert (first.complete, first.resolved, first.total) == (True, 2 * COMBINATIONS, 2 * COMBINATIONS)
    again = prove(read_book(folder), store, jobs=1)
    assert (again.complete, again.resolved) == (True, 0)
    assert again.drinks() == first.drinks()
    write(folder, {"drinks/other.toml": other.replace("120 ml", "125 ml")})
    edited = prove(read_book(folder), store, jobs=1)
    assert (edited.complete, edited.resolved) == (True, COMBINATIONS)


def test_a_torn_part_is_proved_again(tmp_path: Path) -> None:
    book, store = read_book(write(tmp_path / "book", files(iced=GOOD))), ProofStore(tmp_path / "kept")
    prove(book, store, jobs=1)
    torn = min((tmp_path / "kept").glob("*-small.json"))
    torn.write_text(torn.read_text()[:100])
    again = prove(book, store, jobs=1)
    assert (again.complete, again.resolved) == (True, COMBINATIONS // 2)


def test_ctrl_c_keeps_what_is_done(tmp_path: Path) -> None:
    drinks = {f"iced_{n}": iced(more=f"# {n}").replace("Iced Tea", f"Iced Tea {n}") for n in range(150)}
    folder, kept = write(tmp_path / "book", files(**drinks)), tmp_path / "kept"
    command = [
        sys.executable,
        "-m",
        "service.cli.main",
        "prove",
        str(folder),
        "--jobs",
        "1",
        "--cache",
        str(kept),
    ]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as child:
        # The event is the first part that is kept; a loaded machine may take its time to start two processes.
        deadline = time.monotonic() + PATIENCE_S
        while not any(kept.glob("*.json")):
            assert child.poll() is None, child.communicate()
            assert time.monotonic() < deadline, "nothing was kept"
            time.sleep(0.01)
        child.send_signal(signal.SIGINT)
        _, errors = child.communicate(timeout=PATIENCE_S)
    assert child.returncode == 130, errors
    assert "is kept" in errors
    book = read_book(folder)
    known = load(book, ProofStore(kept))
    assert known.parts
    assert not known.complete, "it was stopped in the middle"
    rest = prove(book, ProofStore(kept), jobs=2)
    assert rest.complete
    assert rest.resolved == rest.total - sum(part.combinations for part in known.parts.values())


@pytest.mark.parametrize("jobs", ["0", "-1", "many", "1000"])
def test_a_wrong_number_of_jobs_is_told(jobs: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        main(["prove", "--jobs", jobs])
    assert "from 1 to 256" in capsys.readouterr().err


def children_of(process: int) -> set[int]:
    found: set[int] = set()
    for task in Path(f"/proc/{process}/task").glob("*/children"):
        for child in map(int, task.read_text().split()):
            found |= {child} | children_of(child)
    return found


@pytest.mark.fault
@pytest.mark.skipif(sys.platform != "linux", reason="only Linux ends children with their parent")
@pytest.mark.parametrize("workers_seen", [1, 2])
def test_killed_it_leaves_no_process_behind(tmp_path: Path, workers_seen: int) -> None:
    """However early: a worker that has only just begun must notice too."""
    drinks = {f"iced_{n}": iced(more=f"# {n}").replace("Iced Tea", f"Iced Tea {n}") for n in range(150)}
    folder = write(tmp_path / "book", files(**drinks))
    command = [sys.executable, "-m", "service.cli.main", "prove", str(folder), "--jobs", "2"]
    with subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) as child:
        left: set[int] = set()
        deadline = time.monotonic() + 60
        # The tracker of shared memory is a child as well.
        while len(left) < 1 + workers_seen and time.monotonic() < deadline:
            assert child.poll() is None
            left = children_of(child.pid)
        child.kill()
    deadline = time.monotonic() + 20
    while left and time.monotonic() < deadline:
        left = {process for process in left if Path(f"/proc/{process}").exists()}
        time.sleep(0.02)
    assert left == set()
