"""The data folder: ours alone while we run."""

from __future__ import annotations

import fcntl
import os
from contextlib import suppress
from pathlib import Path
from types import TracebackType


class FolderHeld(Exception):
    """Another service runs on the folder; the text says which."""


class FolderUnusable(Exception):
    """The folder cannot be made or written; the text says which and why."""

    def __init__(self, path: Path, error: OSError) -> None:
        place = f" at {error.filename}" if error.filename not in (None, str(path)) else ""
        super().__init__(
            f"DATA_DIR is {str(path)!r}, which cannot be used ({error.strerror or error}{place}): accepted "
            "is a folder that can be written, or the name of a new one."
        )


class DataFolder:
    """A folder (made if missing, readable by its owner only) locked from ``with`` on until its end.

    The lock goes with the process, however it ends. ``address`` is written into it, so that whoever comes
    second can be told who is first.
    """

    def __init__(self, path: Path, address: str) -> None:
        self.path = path
        self._address = address
        self._lock = path / "lock"

    def __enter__(self) -> DataFolder:
        try:
            self.path.mkdir(mode=0o700, parents=True, exist_ok=True)
            self.path.chmod(0o700)
            self._file = self._lock.open("a+", encoding="utf-8")
        except OSError as error:
            raise FolderUnusable(self.path, error) from error
        try:
            fcntl.flock(self._file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            self._file.seek(0)
            holder = self._file.read().strip() or "a process that has not yet said which"
            self._file.close()
            raise FolderHeld(
                f"The data folder {self.path} is in use by {holder}. Stop that one first, "
                "or choose another folder with DATA_DIR."
            ) from None
        try:
            self._file.truncate(0)
            self._file.write(f"process {os.getpid()}, at {self._address}\n")
            self._file.flush()
        except OSError as error:
            with suppress(OSError):
                self._file.close()
            raise FolderUnusable(self.path, error) from error
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        with suppress(OSError):  # on a disk that has gone bad meanwhile
            self._file.truncate(0)
            self._file.close()
