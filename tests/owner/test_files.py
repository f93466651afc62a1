"""A save is all or nothing, wherever it is killed; and it writes a book's files only."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from recipes.reading.reader import read_book
from service.books.folder import PLAN, read_texts, recover, write_texts
from tests.proof.books import GOOD, files, write

BEFORE = files(iced=GOOD, other=GOOD.replace("Iced Tea", "Other Tea"))
AFTER: dict[str, str | None] = {
    "shop.toml": BEFORE["shop.toml"].replace("Nowhere", "Somewhere"),
    "drinks/iced.toml": GOOD.replace("3.30", "3.50"),
    "drinks/other.toml": None,
    "drinks/new.toml": GOOD.replace("Iced Tea", "New Tea"),
}
KEPT = {**BEFORE, **{name: text for name, text in AFTER.items() if text is not None}}
del KEPT["drinks/other.toml"]

KILLED = """
import json, os, signal, sys
from pathlib import Path
from service.books.folder import write_texts
left = int(sys.argv[2])
def after(name):
    global left
    left -= 1
    if left == 0:
        os.kill(os.getpid(), signal.SIGKILL)
write_texts(Path(sys.argv[1]), json.loads(sys.argv[3]), after)
"""


def killed_after(folder: Path, steps: int) -> int:
    import json

    command = [sys.executable, "-c", KILLED, str(folder), str(steps), json.dumps(AFTER)]
    return subprocess.run(command, timeout=30, check=False).returncode


@pytest.mark.fault
@pytest.mark.parametrize("steps", range(1, len(AFTER) + 2))
def test_killed_between_any_two_files_the_save_is_carried_out(tmp_path: Path, steps: int) -> None:
    folder = write(tmp_path, BEFORE)
    assert killed_after(folder, steps) == -signal.SIGKILL
    assert recover(folder)
    assert read_texts(folder) == KEPT
    assert not recover(folder)
    assert sorted(path.name for path in folder.rglob("*") if path.is_file()) == sorted(
        Path(name).name for name in KEPT
    )
    read_book(folder)


@pytest.mark.fault
def test_killed_while_the_plan_is_written_nothing_is_changed(tmp_path: Path) -> None:
    folder = write(tmp_path, BEFORE)
    (folder / f".{PLAN.lstrip('.')}.new").write_text('{"shop.toml": "torn')
    assert not recover(folder)
    assert read_texts(folder) == BEFORE
    write_texts(folder, AFTER)
    assert read_texts(folder) == KEPT


def test_a_disk_that_refuses_leaves_every_file_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = write(tmp_path, BEFORE)

    def full(handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space"):
        write_texts(folder, AFTER)
    monkeypatch.undo()
    assert read_texts(folder) == BEFORE


@pytest.mark.parametrize("name", ["../out.toml", "/tmp/out.toml", "drinks/../../out.toml", "drinks/.x.toml"])
def test_nothing_is_written_elsewhere(tmp_path: Path, name: str) -> None:
    folder = write(tmp_path / "book", BEFORE)
    with pytest.raises(ValueError, match="not a file of a book"):
        write_texts(folder, {"shop.toml": "x", name: "x"})
    assert read_texts(folder) == BEFORE
    assert [path.name for path in tmp_path.iterdir()] == ["book"]


def test_a_plan_that_somebody_planted_writes_book_files_only(tmp_path: Path) -> None:
    folder = write(tmp_path / "book", BEFORE)
    (folder / PLAN).write_text('{"../out.toml": "x", "shop.toml": "y"}')
    recover(folder)
    assert not (tmp_path / "out.toml").exists()


def test_a_link_is_neither_followed_nor_read(tmp_path: Path) -> None:
    folder = write(tmp_path / "book", BEFORE)
    secret = tmp_path / "secret.toml"
    secret.write_text("secret = 1")
    (folder / "drinks" / "iced.toml").unlink()
    (folder / "drinks" / "iced.toml").symlink_to(secret)
    assert "drinks/iced.toml" not in read_texts(folder)
    write_texts(folder, {"drinks/iced.toml": GOOD})
    assert secret.read_text() == "secret = 1"
    assert read_texts(folder)["drinks/iced.toml"] == GOOD
