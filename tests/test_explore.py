"""Property tests: steady in make test, and all of them found by make explore."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest
from hypothesis import settings

from tests.explore import command, main

TESTS = Path(__file__).parent


def test_without_being_asked_to_explore_every_run_draws_the_same() -> None:
    steady = settings.get_profile("steady")
    assert (steady.derandomize, steady.deadline) == (True, None)
    explore = settings.get_profile("explore")
    assert (explore.derandomize, explore.print_blob) == (False, True)


def test_every_file_with_a_property_is_explored() -> None:
    told = subprocess.run(
        [*command(1), "--collect-only", str(TESTS)],
        capture_output=True,
        text=True,
        check=True,
        cwd=TESTS.parent,
    ).stdout
    drawing = re.compile(r"^@given|^class .*RuleBasedStateMachine|^@some\.given", re.MULTILINE)
    written = {path for path in TESTS.rglob("test_*.py") if drawing.search(path.read_text("utf-8"))}
    assert len(written) > 5
    missed = {path.name for path in written if f"{path.relative_to(TESTS.parent)}::" not in told}
    assert not missed


def test_a_round_that_fails_ends_the_rounds_and_tells_its_seed(
    tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    test = tmp_path / "test_wrong.py"
    test.write_text(
        "from hypothesis import given, strategies as st\n"
        "@given(st.integers())\n"
        "def test_all_numbers_are_small(n: int) -> None:\n"
        "    assert n < 1000\n",
        "utf-8",
    )
    alone = ["-p", "no:cacheprovider", "--rootdir", str(tmp_path), "-c", "/dev/null", str(test)]
    assert main(3, 7, alone) == 1
    told = capfd.readouterr().out
    assert "round 1 of 3, seed 7" in told
    assert "round 2" not in told
    assert "make explore N=1 SEED=7" in told
