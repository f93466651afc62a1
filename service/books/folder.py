"""The book's folder as files to be written: all of them or none, whatever stops us in between.

The whole new content is first put beside the files as a plan, ``.saving.json``. Once that is on the disk the
save counts; whoever comes next and finds a plan carries it out to its end. Names are those of a book's files
and nothing else, so no path leads out of the folder.
"""

from __future__ import annotations

import json
import os
from collections.abc import Callable, Mapping
from pathlib import Path

from recipes.reading.reader import MOST_BYTES, SHARED, is_book_file

PLAN = ".saving.json"


class PlanDamaged(OSError):
    """The plan of a save is none of ours: those are written as a whole."""

    def __init__(self, folder: Path) -> None:
        super().__init__(f"{folder / PLAN} is not the plan of a save; look at it, and remove it")


def read_texts(folder: Path) -> dict[str, str]:
    """The texts of a book's files as they stand, faulty or not; what is no plain UTF-8 file is left out."""
    names = [*SHARED, *(f"drinks/{path.name}" for path in sorted((folder / "drinks").glob("[!.]*.toml")))]
    found: dict[str, str] = {}
    for name in names:
        try:
            handle = os.open(folder / name, os.O_RDONLY | os.O_NOFOLLOW | os.O_NONBLOCK)
            with os.fdopen(handle, "rb") as file:
                # As the reader takes them, or the version would be another one.
                found[name] = file.read(MOST_BYTES + 1).decode("utf-8-sig").replace("\r\n", "\n")
        except (OSError, UnicodeDecodeError):
            continue
    return found


def write_texts(
    folder: Path, texts: Mapping[str, str | None], after: Callable[[str], None] = lambda name: None
) -> None:
    """Write (or, for None, remove) these files: all or none. Raises OSError, ValueError for a foreign name.

    ``after`` is told of each thing done, for whoever wants to stop us there.
    """
    for name in texts:
        if not is_book_file(name):
            raise ValueError(f"{name!r} is not a file of a book")
    recover(folder)
    if (folder / "drinks").is_symlink():
        raise OSError(f"{folder / 'drinks'} is a link; a book's drinks lie in the book itself")
    _replace(folder / PLAN, json.dumps(texts, ensure_ascii=False))
    after(PLAN)
    _carry_out(folder, texts, after)


def recover(folder: Path) -> bool:
    """Carry an interrupted save out to its end; whether there was one. Raises OSError, PlanDamaged."""
    try:
        texts = json.loads((folder / PLAN).read_text("utf-8"))
    except FileNotFoundError:
        return False
    except (ValueError, RecursionError) as error:
        raise PlanDamaged(folder) from error
    if not isinstance(texts, dict) or not all(
        text is None or isinstance(text, str) for text in texts.values()
    ):
        raise PlanDamaged(folder)
    _carry_out(folder, {name: text for name, text in texts.items() if is_book_file(name)}, lambda name: None)
    return True


def _carry_out(folder: Path, texts: Mapping[str, str | None], after: Callable[[str], None]) -> None:
    for name, text in texts.items():
        if text is None:
            (folder / name).unlink(missing_ok=True)
            _sync(folder / name)
        else:
            _replace(folder / name, text)
        after(name)
    (folder / PLAN).unlink()
    _sync(folder / PLAN)


def _replace(path: Path, text: str) -> None:
    """A file's new content, on the disk before its name is: never half of it."""
    path.parent.mkdir(exist_ok=True)
    beside = path.with_name(f".{path.name.lstrip('.')}.new")
    with beside.open("w", encoding="utf-8", newline="\n") as file:
        file.write(text)
        file.flush()
        os.fsync(file.fileno())
    beside.replace(path)
    _sync(path)


def _sync(path: Path) -> None:
    """Have a folder's change of names on the disk."""
    handle = os.open(path.parent, os.O_RDONLY | os.O_DIRECTORY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
