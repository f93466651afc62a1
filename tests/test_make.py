"""``make`` on a machine where something is missing: what a newcomer reads last is a sentence."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

import pytest

MAKEFILE = Path(__file__).parent.parent / "Makefile"


@pytest.fixture
def place(tmp_path: Path) -> Path:
    """A folder with the Makefile, the files that its rules look at, and an empty virtual environment."""
    shutil.copy(MAKEFILE, tmp_path)
    for name in ("requirements.lock", "pyproject.toml", "display/package.json", "display/package-lock.json"):
        file = tmp_path / name
        file.parent.mkdir(exist_ok=True)
        file.touch()
    (tmp_path / ".venv" / "bin").mkdir(parents=True)
    return tmp_path


def program(place: Path, name: str, text: str) -> None:
    file = place / ".venv" / "bin" / name
    file.write_text(f"#!/bin/sh\n{text}\n", "ascii")
    file.chmod(0o755)


def make(place: Path, *what: str) -> tuple[int, str]:
    """Its exit code, and the last line before make's own."""
    clean = {name: value for name, value in os.environ.items() if not name.startswith("MAKE")}
    done = subprocess.run(["make", *what], cwd=place, capture_output=True, text=True, check=False, env=clean)
    said = [line for line in done.stderr.splitlines() if line.strip() and not line.startswith("make")]
    return done.returncode, said[-1] if said else ""


def test_without_the_network_pips_failure_ends_in_a_sentence(place: Path) -> None:
    (place / ".venv" / ".made").touch()
    program(place, "python", 'case "$*" in *pip*) echo "ERROR: No matching distribution" >&2; exit 1;; esac')
    code, last = make(place, ".venv/.run")
    assert code != 0
    assert "the first start needs the network once, to reach PyPI and the npm registry" in last


def test_without_the_network_npms_failure_ends_in_a_sentence(place: Path) -> None:
    program(place, "npm", "echo 'npm error network' >&2; exit 1")
    for stamp in (".made", ".run"):
        (place / ".venv" / stamp).touch()
    code, last = make(place, "display/node_modules/.installed")
    assert code != 0
    assert "the first start needs the network once" in last


def test_without_a_python_it_says_what_it_needs(place: Path) -> None:
    code, last = make(place, "PYTHON=python-that-is-not-there", ".venv/.made")
    assert code != 0
    assert "needs Python 3.11 or later, and python-that-is-not-there does not run here" in last


def test_a_virtual_environment_whose_python_is_gone_is_told(place: Path) -> None:
    (place / ".venv" / ".made").touch()
    (place / ".venv" / "bin" / "python").symlink_to("/nowhere/python3.11")
    code, last = make(place, ".venv/.run")
    assert code != 0
    assert "is gone. Run make clean" in last
